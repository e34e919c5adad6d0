import type { StandardBody } from '../../../server/contract/standards/standards.ts'

const KEBAB = /^[a-z0-9]+(-[a-z0-9]+)*$/

function repeated(codes: readonly string[]): string[] {
  return [...new Set(codes.filter((code, index) => codes.indexOf(code) !== index))]
}

function problemsOfCodes(standard: StandardBody): string[] {
  const measures = [...standard.majors, ...standard.minors]
  const groups: [string, string[]][] = [
    ['measures', measures.map((measure) => measure.code)],
    ['gauges', standard.gauges.map((gauge) => gauge.code)],
    ...measures.map(({ code, faults }): [string, string[]] => [`${code}: faults`, faults.map((fault) => fault.code)]),
  ]
  return groups.flatMap(([where, codes]) => [
    ...repeated(codes).map((code) => `${where}: "${code}" comes twice`),
    ...codes.filter((code) => !KEBAB.test(code)).map((code) => `${where}: "${code}" is not kebab-case`),
  ])
}

function problemsOfChecks(standard: StandardBody): string[] {
  return standard.minors.flatMap(({ code, checks }) =>
    [checks.preparatory, checks.execution].flatMap((phase) => [
      ...repeated(phase.map((check) => `${check.code} ${check.arm ?? ''}`)).map(
        (check) => `${code}: check "${check.trim()}" comes twice`,
      ),
      ...phase
        .filter((check) => check.arm !== undefined && !standard.arms.includes(check.arm))
        .map(
          (check) => `${code}: check "${check.code}" is for the arm "${check.arm}", which is not one of the standard`,
        ),
    ]),
  )
}

function problemsOfGauges(standard: StandardBody): string[] {
  const known = new Map(standard.gauges.map((gauge) => [gauge.code, gauge]))
  const used = new Set(standard.minors.flatMap((minor) => minor.gauges))
  return [
    ...standard.gauges.flatMap(({ code, min, max, target, origin }) => {
      const [low, middle, high] = [min ?? '-9999', target ?? min ?? '-9999', max ?? '9999'].map(Number) as [
        number,
        number,
        number,
      ]
      return [
        ...(used.has(code) ? [] : [`gauge ${code}: no measure uses it`]),
        ...(low <= middle && middle <= high
          ? []
          : [`gauge ${code}: target outside its band, or the band is upside down`]),
        ...(origin?.trim() ? [] : [`gauge ${code}: its origin is not said`]),
      ]
    }),
    ...standard.minors.flatMap((minor) =>
      minor.gauges.flatMap((code) => {
        const gauge = known.get(code)
        if (!gauge) return [`${minor.code}: gauge "${code}" does not exist`]
        return [gauge.low, gauge.high]
          .filter((fault) => fault && !minor.faults.some((own) => own.code === fault))
          .map((fault) => `${minor.code}: gauge "${code}" names the fault "${fault}", which the measure lacks`)
      }),
    ),
  ]
}

function problemsOfCalls(standard: StandardBody): string[] {
  const minors = new Set(standard.minors.map((minor) => minor.code))
  const called = new Map<string, number[]>()
  for (const { measure, trial } of standard.calls) called.set(measure, [...(called.get(measure) ?? []), trial])
  const wanted = Array.from({ length: standard.rule.trials }, (_, index) => index + 1).join(', ')
  return [
    ...[...called.keys()].filter((code) => !minors.has(code)).map((code) => `calls: "${code}" is no minor measure`),
    ...[...minors].flatMap((code) => {
      const trials = (called.get(code) ?? []).join(', ')
      return trials === wanted ? [] : [`calls: ${code} has the trials ${trials || 'none'} instead of ${wanted}`]
    }),
    ...standard.calls.flatMap(({ measure, trial, from, preparatory, execution }) => {
      const arms = typeof execution === 'object' ? Object.keys(execution) : standard.arms
      const missing = standard.arms.filter((arm) => !arms.includes(arm))
      return [
        ...(from && preparatory && execution ? [] : [`calls: ${measure} ${trial} lacks its start or a command`]),
        ...missing.map((arm) => `calls: ${measure} ${trial} has no command of execution for the ${arm}`),
      ]
    }),
  ]
}

/**
 * What is wrong with a standard as data beyond the shape that the contract asks for.
 * In: a parsed standard. Out: one line a problem, naming the measure, gauge or call; empty when there is none.
 */
export function findStandardProblems(standard: StandardBody): string[] {
  return [
    ...problemsOfCodes(standard),
    ...problemsOfChecks(standard),
    ...problemsOfGauges(standard),
    ...problemsOfCalls(standard),
    ...[...standard.majors, ...standard.minors]
      .filter((measure) => measure.faults.length < 3)
      .map((measure) => `${measure.code}: fewer than three faults`),
    ...(standard.cautions.some((caution) => caution.includes('CEASE'))
      ? []
      : ['cautions: none says that CEASE stops all']),
  ]
}
