import type { StandardBody } from '#contract/standards/standards.ts'

type Minor = StandardBody['minors'][number]

/** A code for a title that none of these has: "Half step" is "half-step". */
export function codeFor(title: string, used: readonly string[]): string {
  const base =
    title
      .normalize('NFKD')
      .replace(/\p{Mark}/gu, '')
      .replace(/[^A-Za-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .toLowerCase()
      .slice(0, 56) || 'new'
  let code = base
  for (let count = 2; used.includes(code); count++) code = `${base}-${count}`
  return code
}

/** A list with one thing a place further up (-1) or down (1). */
export function moved<Item>(list: readonly Item[], at: number, by: -1 | 1): Item[] {
  const to = at + by
  if (to < 0 || to >= list.length) return [...list]
  const copy = [...list]
  ;[copy[at], copy[to]] = [copy[to]!, copy[at]!]
  return copy
}

/** A list with one thing replaced, or without it (null). */
export const replaced = <Item>(list: readonly Item[], at: number, item: Item | null): Item[] =>
  item === null ? list.filter((_, index) => index !== at) : list.map((one, index) => (index === at ? item : one))

/**
 * The calls that fit the measures: those of measures and trials that are there no more are left out, those that are missing
 * come after the last call of their measure, or of the measure before it.
 */
export function fittingCalls({
  minors,
  rule,
  calls,
}: Pick<StandardBody, 'minors' | 'rule' | 'calls'>): StandardBody['calls'] {
  const fitting = calls.filter(
    ({ measure, trial }) => trial <= rule.trials && minors.some(({ code }) => code === measure),
  )
  minors.forEach((minor: Minor, index) => {
    for (let trial = 1; trial <= rule.trials; trial++) {
      if (fitting.some((call) => call.measure === minor.code && call.trial === trial)) continue
      const earlier = [minor, ...minors.slice(0, index).reverse()]
      const before = earlier.find(({ code }) => fitting.some((call) => call.measure === code))
      const place = before ? fitting.findLastIndex((call) => call.measure === before.code) + 1 : 0
      fitting.splice(place, 0, { measure: minor.code, trial })
    }
  })
  return fitting
}
