import { joinParts } from './list-notation.ts'

type Values = Readonly<Record<string, unknown>>

interface Measure {
  readonly code: string
  readonly title: string
  readonly faults: readonly Measure[]
  readonly [more: string]: unknown
}

interface Check extends Measure {
  readonly kind?: string
  readonly arm?: string
}

/**
 * The rows of a table that say a standard, from which `standardItems` makes it again: majors and minors, gauges, calls. What
 * it is about as a whole stands in the first row.
 */
export function standardRecords(standard: Values): Values[] {
  const { rule, majors, minors, gauges, calls, task, conditions, cautions, references, ...rest } = standard
  const { standard: wording, equivalentToPrevious, ...head } = rest
  const alike = { ...head, ...(rule as Values) }
  const once = {
    task,
    conditions,
    cautions,
    wording,
    equivalentToPrevious,
    references: (references as Values[]).map(({ title, edition }) => joinParts([String(title), String(edition)])),
  }
  const titles = new Map((minors as Measure[]).map(({ code, title }) => [code, title]))
  const rows = [
    ...(majors as Measure[]).map(({ criteria, ...major }) => ({ class: 'major', ...measureRecord(major), criteria })),
    ...(minors as Measure[]).map(minorRecord),
    ...(gauges as Measure[]).map(gaugeRecord),
    ...((calls ?? []) as Values[]).map((call) => callRecord(call, titles)),
  ]
  return rows.map((row, at) => ({ ...alike, ...(at === 0 && once), ...row }))
}

const nameOf = ({ code, title }: Pick<Measure, 'code' | 'title'>): string => `${code}=${title}`

const measureRecord = ({ code, title, faults }: Measure) => ({
  measure: code,
  measureTitle: title,
  faults: faults.map(nameOf),
})

const minorRecord = ({ counts, gauges, checks, ...minor }: Measure): Values => {
  const { preparatory = [], execution = [] } = (checks ?? {}) as Record<string, Check[]>
  return {
    class: 'minor',
    ...measureRecord(minor),
    counts,
    gauges: gauges ?? [],
    preparatoryChecks: preparatory.map(checkText),
    executionChecks: execution.map(checkText),
  }
}

const checkText = (check: Check): string =>
  joinParts([nameOf(check), check.arm, check.kind === 'fits' ? '' : check.kind])

const gaugeRecord = ({ code, title, ...gauge }: Measure): Values => {
  const { unit, min, max, low, high, target, origin } = gauge as Readonly<Record<string, string | null | undefined>>
  const text = `${code}=${joinParts([title, unit, min, max, low, high, target, origin])}`
  return { class: 'gauge', measure: code, measureTitle: title, gauges: [text] }
}

const callRecord = ({ from, execution, ...call }: Values, titles: ReadonlyMap<string, string>): Values => ({
  class: 'call',
  ...call,
  measureTitle: titles.get(String(call.measure)) ?? call.measure,
  startsFrom: from,
  ...(typeof execution === 'object'
    ? { executionByArm: Object.entries(execution as Values).map(([arm, word]) => `${arm}=${word}`) }
    : { execution }),
})
