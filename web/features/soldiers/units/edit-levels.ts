import type { UnitLevel } from '#contract/soldiers/levels.ts'

/** Words for levels from the top down, common practice; a unit says its own. */
export const BEGINNINGS: readonly (readonly (readonly [one: string, many: string])[])[] = [
  [
    ['battalion', 'battalions'],
    ['company', 'companies'],
    ['platoon', 'platoons'],
    ['squad', 'squads'],
  ],
  [
    ['wing', 'wings'],
    ['squadron', 'squadrons'],
    ['flight', 'flights'],
    ['element', 'elements'],
  ],
  [
    ['department', 'departments'],
    ['station', 'stations'],
    ['team', 'teams'],
  ],
  [
    ['guard', 'guards'],
    ['team', 'teams'],
  ],
]

/** A plural as English mostly makes it; a unit puts right what it makes otherwise. */
export const likelyPlural = (one: string): string => {
  if (/[^aeiou]y$/i.test(one)) return `${one.slice(0, -1)}ies`
  return /(s|x|z|ch|sh)$/i.test(one) ? `${one}es` : `${one}s`
}

/** A code for a new level that no other one has. */
function codeFor(one: string, levels: readonly UnitLevel[]): string {
  const base =
    one
      .normalize('NFKD')
      .replace(/[^A-Za-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .toLowerCase()
      .slice(0, 50) || 'level'
  const taken = (code: string) => levels.some((level) => level.code === code)
  let code = base
  for (let number = 2; taken(code); number++) code = `${base}-${number}`
  return code
}

/** The levels with a new one below them. */
export const withLevel = (levels: readonly UnitLevel[], one: string): UnitLevel[] => [
  ...levels,
  { code: codeFor(one, levels), one, many: likelyPlural(one), compared: levels.length === 0 },
]

/** A level called otherwise; its plural follows as long as it was the likely one. */
export const renamed = (level: UnitLevel, one: string): UnitLevel => ({
  ...level,
  one,
  many: level.many === likelyPlural(level.one) ? likelyPlural(one) : level.many,
})

/** The levels without one; where findings compared it they compare the one in its place. */
export function withoutLevel(levels: readonly UnitLevel[], at: number): UnitLevel[] {
  const rest = levels.filter((_, index) => index !== at)
  const next = Math.min(at, rest.length - 1)
  return levels[at]?.compared ? rest.map((level, index) => ({ ...level, compared: index === next })) : rest
}

/**
 * The levels by the words of a beginning, from the top down. Levels that are there keep their units; one that the beginning
 * has no word for stays at the end as long as a unit is of it. In: the levels, their codes in use, the beginning.
 */
export function begunWith(
  levels: readonly UnitLevel[],
  inUse: ReadonlySet<string>,
  beginning: (typeof BEGINNINGS)[number],
): UnitLevel[] {
  const compared = Math.min(1, beginning.length - 1)
  const begun: UnitLevel[] = []
  beginning.forEach(([one, many], at) => {
    const code = levels[at]?.code ?? codeFor(one, [...levels, ...begun])
    begun.push({ code, one, many, compared: at === compared })
  })
  const kept = levels.slice(beginning.length).filter(({ code }) => inUse.has(code))
  return [...begun, ...kept.map((level) => ({ ...level, compared: false }))]
}
