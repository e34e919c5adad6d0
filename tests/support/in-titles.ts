import type { StandardBody } from '../../server/contract/standards/standards.ts'

/** A standard with titles for codes, so that one written by hand compares with one whose codes somebody chose. */
export function inTitles(standard: StandardBody) {
  const { majors, minors, gauges, calls } = standard
  const measure = new Map(minors.map(({ code, title }) => [code, title]))
  const gauge = new Map(gauges.map(({ code, title }) => [code, title]))
  const faults = new Map(minors.flatMap((minor) => minor.faults.map(({ code, title }) => [code, title] as const)))
  const titles = (list: readonly { title: string }[]) => list.map(({ title }) => title)
  const checks = (list: StandardBody['minors'][number]['checks']['execution']) =>
    list.map(({ title, arm, kind }) => ({ title, arm, kind }))
  return {
    title: standard.title,
    arms: standard.arms,
    task: standard.task,
    conditions: standard.conditions,
    standard: standard.standard,
    references: standard.references,
    cautions: standard.cautions,
    rule: standard.rule,
    majors: majors.map((major) => ({ title: major.title, criteria: major.criteria, faults: titles(major.faults) })),
    minors: minors.map((minor) => ({
      title: minor.title,
      counts: minor.counts,
      preparatory: checks(minor.checks.preparatory),
      execution: checks(minor.checks.execution),
      faults: titles(minor.faults),
      gauges: minor.gauges.map((code) => gauge.get(code)).sort(),
    })),
    gauges: gauges.map(({ code: _code, low, high, ...rest }) => ({
      ...rest,
      target: rest.target ?? null,
      low: low ? faults.get(low) : null,
      high: high ? faults.get(high) : null,
    })),
    calls: calls.map((call) => ({
      ...call,
      measure: measure.get(call.measure),
      ...(call.unbroken !== undefined && { unbroken: measure.get(call.unbroken) }),
    })),
  }
}
