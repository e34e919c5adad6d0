import type { PlainDate } from '../calendar/plain-date.ts'
import { type Picture, pictureOf, type StandingPicture } from './picture.ts'
import type { Fact, RecordedFact } from './recorded-facts.ts'
import { type KnownSheet, whatWasKnown } from './what-was-known.ts'

/** Something entered later that makes a day look otherwise than it did. */
export interface Difference {
  /** Milliseconds since 1970. */
  readonly at: number
  /** What was entered, in order. */
  readonly facts: readonly Fact[]
  /** Null before: nothing was known; null after: nothing is any more. */
  readonly certifications: readonly {
    readonly certification: string
    readonly before: StandingPicture | null
    readonly after: StandingPicture | null
  }[]
  readonly sheets: readonly {
    readonly id: string
    readonly before: KnownSheet | null
    readonly after: KnownSheet | null
  }[]
}

/** A day as it was known and as it is known, and what made the difference. */
export interface AsKnown {
  readonly known: Picture
  readonly now: Picture
  readonly differences: readonly Difference[]
}

/**
 * How a day looked to whoever knew the record up to a moment, how it looks with all of it, and which later transactions
 * changed the picture: each is added in turn, and named with what it changed.
 * In: all facts in the order of the record, the soldier's id, the moment in milliseconds (exclusive), the day.
 */
export function whatDiffers(
  facts: readonly RecordedFact[],
  soldierId: string,
  until: number,
  asOf: PlainDate,
): AsKnown {
  const pictureAfter = (count: number) => pictureOf(whatWasKnown(facts.slice(0, count), soldierId), asOf)
  const later = facts.findIndex(({ at }) => at >= until)
  const known = pictureAfter(later === -1 ? facts.length : later)
  const differences: Difference[] = []
  let now = known
  for (let from = later; from !== -1 && from < facts.length; ) {
    const { at } = facts[from]!
    let to = from + 1
    while (to < facts.length && facts[to]!.at === at) to += 1
    const before = now
    now = pictureAfter(to)
    const certifications = changed(before.certifications, now.certifications, (one) => one.certification)
    const sheets = changed(before.sheets, now.sheets, (one) => one.id)
    if (certifications.length + sheets.length > 0) {
      differences.push({
        at,
        facts: facts.slice(from, to).map(({ fact }) => fact),
        certifications: certifications.map(({ key, ...pair }) => ({ certification: key, ...pair })),
        sheets: sheets.map(({ key, ...pair }) => ({ id: key, ...pair })),
      })
    }
    from = to
  }
  return { known, now, differences }
}

function changed<One>(before: readonly One[], after: readonly One[], keyOf: (one: One) => string) {
  const [old, renewed] = [before, after].map((list) => new Map(list.map((one) => [keyOf(one), one])))
  return [...new Set([...old!.keys(), ...renewed!.keys()])]
    .map((key) => ({ key, before: old!.get(key) ?? null, after: renewed!.get(key) ?? null }))
    .filter(({ before: a, after: b }) => JSON.stringify(a) !== JSON.stringify(b))
}
