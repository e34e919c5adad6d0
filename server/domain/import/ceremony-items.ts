import { gatherRows, requireAgreement } from './gather-rows.ts'
import type { Item, ReadRow } from './item.ts'
import { withDay } from './with-day.ts'

/** Ceremonies from a row for each post; those of one title, day and start belong together. */
export function ceremonyItems(rows: readonly ReadRow[]): Item[] {
  return gatherRows(
    rows,
    ({ title, on, startsAt }) => JSON.stringify([title, withDay(startsAt, on)]),
    (group) => {
      const { title, venue, unit, on, startsAt, endsAt } = group[0]!.values
      const posts = group.map(({ values }) => ({
        title: values.post,
        row: values.row,
        place: values.place,
        certification: values.certification,
        arm: values.arm ?? null,
        grades: values.grades ?? null,
        rosterNumber: values.rosterNumber ?? null,
      }))
      const head = { title, place: venue ?? '', unit, startsAt: withDay(startsAt, on), endsAt: withDay(endsAt, on) }
      return { value: { ...head, posts }, problems: requireAgreement(group, ['venue', 'unit', 'endsAt']) }
    },
  )
}
