import { named } from '../standards/code-for.ts'
import { gatherRows, requireAgreement } from './gather-rows.ts'
import type { Item, ReadRow } from './item.ts'
import { splitParts } from './list-notation.ts'
import { splitAtMost } from './split-at-most.ts'

type Values = ReadRow['values']

/** What every row of a standard says alike, and what is said once, in any of them. */
const ALIKE = ['title', 'effectiveFrom', 'arms', 'trials', 'needed', 'percent']
const ONCE = ['task', 'conditions', 'wording', 'references', 'cautions', 'equivalentToPrevious']

/**
 * Standards from a row for each measure, gauge and call; those of one code and version belong together, in the order of the
 * rows. A measure, fault or check without a code of its own gets one from its title.
 */
export function standardItems(rows: readonly ReadRow[]): Item[] {
  return gatherRows(
    rows,
    ({ code, version = 1 }) => JSON.stringify([code, version]),
    (group) => ({
      value: standardOf(group.map(({ values }) => values)),
      problems: requireAgreement(group, ALIKE),
    }),
  )
}

function standardOf(rows: readonly Values[]): Values {
  const { code, version = 1, title, effectiveFrom, arms = [], trials = 3, needed = 2, percent = '80' } = rows[0]!
  const said = Object.fromEntries(ONCE.map((key) => [key, rows.find((row) => row[key] !== undefined)?.[key]]))
  const of = (kind: string) => rows.filter((row) => kindOf(row) === kind)
  const codes: string[] = []
  const measures = [...of('major'), ...of('minor')].map((row) => ({ row, ...measureOf(row, codes) }))
  const written = of('gauge').map(
    ({ measure, measureTitle, gauges }) => list(gauges)[0] ?? `${measure}=${measureTitle}`,
  )
  const gauges = [...written, ...of('minor').flatMap(({ gauges: read }) => list(read))].flatMap(gaugeOf)
  return {
    code,
    version,
    title,
    effectiveFrom,
    arms,
    ...defined({ ...said, wording: undefined, standard: said.wording, references: undefined }),
    ...defined({ references: said.references && list(said.references).map(referenceOf) }),
    rule: { trials, needed, percent },
    majors: measures.flatMap(({ row, ...measure }) =>
      kindOf(row) === 'major' ? { ...measure, ...defined({ criteria: row.criteria }) } : [],
    ),
    minors: measures.flatMap(({ row, ...measure }) => (kindOf(row) === 'minor' ? { ...measure, ...minorOf(row) } : [])),
    gauges: [...new Map(gauges.map((gauge) => [gauge.code, gauge])).values()],
    ...defined({ calls: of('call').length > 0 ? of('call').map((row) => callOf(row, measures)) : undefined }),
  }
}

const KINDS = [
  [/^maj/i, 'major'],
  [/^gau/i, 'gauge'],
  [/^call/i, 'call'],
] as const

/** What a row is about; a minor measure where it does not say. */
const kindOf = ({ class: word }: Values): string =>
  KINDS.find(([begins]) => begins.test(String(word ?? '').trim()))?.[1] ?? 'minor'

/** What is not said is left out, so that it is as if nobody had thought of it. */
const defined = (values: Values): Values =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined))

const list = (value: unknown): string[] => (value ?? []) as string[]

const measureOf = ({ measure, measureTitle, faults }: Values, codes: string[]) => {
  const title = String(measureTitle ?? '')
  const code = measure === undefined ? named(title, codes).code : String(measure)
  codes.push(code)
  return { code, title, faults: namedOf(list(faults)) }
}

const minorOf = ({ counts, gauges, preparatoryChecks, executionChecks }: Values): Values => ({
  ...defined({ counts }),
  gauges: list(gauges).map((text) => splitAtMost(text, '=', 2)[0]!.trim()),
  checks: { preparatory: checksOf(list(preparatoryChecks)), execution: checksOf(list(executionChecks)) },
})

/** `code=title`, or only the title. */
const namedOf = (texts: readonly string[]): { code: string; title: string }[] => {
  const codes: string[] = []
  return texts.map((text) => {
    const [code, title] = splitAtMost(text, '=', 2).map((part) => part.trim())
    const one = title === undefined ? named(text, codes) : { code: code!, title }
    codes.push(one.code)
    return one
  })
}

/** `code=title|arm|kind`. */
const checksOf = (texts: readonly string[]): Values[] => {
  const parts = texts.map(splitParts)
  return namedOf(parts.map(([name = '']) => name)).map((check, at) => {
    const [, arm = '', kind = ''] = parts[at]!
    return { ...check, kind: kind || 'fits', ...(arm && { arm }) }
  })
}

const referenceOf = (text: string): Values => {
  const [title = '', edition = ''] = splitParts(text)
  return { title, edition }
}

/** `code=title|unit|least|most|fault below|fault above|target|origin`; a code alone names a gauge of another row. */
const gaugeOf = (text: string) => {
  const [code = '', rest] = splitAtMost(text, '=', 2)
  if (rest === undefined) return []
  const [title = '', unit = '', min = '', max = '', low = '', high = '', target = '', origin = ''] = splitParts(rest)
  const optional = Object.fromEntries(Object.entries({ low, high, target, origin }).filter(([, part]) => part !== ''))
  return { code: code.trim(), title: title || code.trim(), unit, min: min || null, max: max || null, ...optional }
}

const callOf = (row: Values, measures: readonly { code: string; title: string }[]): Values => {
  const { measure, measureTitle, trial, startsFrom, preparatory, execution, executionByArm } = row
  const { cadence, finish, unbroken, steps, readable } = row
  const found = measures.find(
    ({ code, title }) => code === measure || (measure === undefined && title === measureTitle),
  )
  const byArm = executionByArm && Object.fromEntries(list(executionByArm).map((text) => splitAtMost(text, '=', 2)))
  return defined({
    measure: found?.code ?? measure ?? measureTitle,
    trial,
    from: startsFrom,
    preparatory,
    execution: byArm ?? execution,
    cadence,
    finish,
    unbroken,
    steps,
    readable,
  })
}
