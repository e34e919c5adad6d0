import { randomUUID } from 'node:crypto'
import type { KnownPeriod } from '../db/import-facts.db.ts'
import type { Given, verdictList } from './run.ts'

/** A period that a row gives, of a soldier by a sponsor or standard. */
export type NewPeriod = Omit<KnownPeriod, 'id'>

/**
 * Sets periods of a file against those that are recorded: the same again changes nothing, one that goes on gets the end
 * the file gives it, one that overlaps otherwise is refused, all else is added.
 */
export function mergePeriods<Item>(
  recorded: readonly KnownPeriod[],
  given: readonly (Given<Item> & { readonly period: NewPeriod })[],
  say: ReturnType<typeof verdictList>['say'],
): { added: KnownPeriod[]; ended: KnownPeriod[] } {
  const known = new Map<string, KnownPeriod[]>()
  const keyOf = ({ of, by }: NewPeriod) => `${of} ${by}`
  for (const period of recorded) known.set(keyOf(period), [...(known.get(keyOf(period)) ?? []), period])
  const added: KnownPeriod[] = []
  const ended: KnownPeriod[] = []
  for (const { rows, period, about } of given) {
    const own = known.get(keyOf(period)) ?? []
    const same = own.find(({ from }) => from === period.from)
    if (same && same.to === period.to) say(rows, 'unchanged', about)
    else if (same && same.to === null) {
      const now = { ...same, to: period.to }
      ended.push(now)
      known.set(
        keyOf(period),
        own.map((one) => (one === same ? now : one)),
      )
      say(rows, 'changed', about, `ends on ${period.to}`)
    } else {
      const clash = own.find((one) => overlaps(one, period))
      if (clash) {
        say(
          rows,
          'refused',
          about,
          `The same is recorded already from ${clash.from} ${clash.to === null ? 'on' : `to ${clash.to}`}. Give a period that does not overlap it.`,
        )
        continue
      }
      const fresh = { ...period, id: randomUUID() }
      added.push(fresh)
      known.set(keyOf(period), [...own, fresh])
      say(rows, 'added', about)
    }
  }
  return { added, ended }
}

const overlaps = (a: NewPeriod, b: NewPeriod): boolean =>
  (b.to === null || a.from <= b.to) && (a.to === null || b.from <= a.to)
