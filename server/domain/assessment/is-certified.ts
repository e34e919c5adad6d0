import type { PlainDate } from '../calendar/plain-date.ts'
import { compareSheets, type SheetPlace } from '../certification/sheet-order.ts'
import type { Qualification } from './types.ts'

type Award = Qualification['awards'][number]

/**
 * Whether a person's status in a certification is "certified" as of the day of a sheet, from what lies before the sheet
 * in order: awards of earlier sheets that are in force that day, and awards carried over from days before.
 */
export function isCertified(
  person: Qualification,
  certification: string,
  sheet: SheetPlace & { readonly day: PlainDate },
): boolean {
  const last = person.awards
    .filter((award) => award.certification === certification && isInForce(award, sheet.day) && liesBefore(award, sheet))
    .reduce<Award | null>((latest, award) => (latest && compareAwards(latest, award) > 0 ? latest : award), null)
  if (!last || sheet.day > last.validThrough) return false
  return !person.suspensions.some(
    (one) =>
      one.certification === certification && one.from <= sheet.day && (one.lift === null || one.lift > sheet.day),
  )
}

const isInForce = ({ awardedOn, inForceFrom = awardedOn }: Award, day: PlainDate): boolean =>
  inForceFrom !== null && inForceFrom <= day

function liesBefore(award: Award, sheet: SheetPlace & { readonly day: PlainDate }): boolean {
  if (award.madeBy === null) return award.awardedOn < sheet.day
  return award.awardedOn <= sheet.day && compareSheets(award.madeBy, sheet) < 0
}

/** Awards of a day: those of sheets as the sheets are ordered, then those carried over in order of entry. */
function compareAwards(a: Award, b: Award): number {
  if (a.madeBy && b.madeBy) return compareSheets(a.madeBy, b.madeBy)
  if (a.awardedOn !== b.awardedOn) return a.awardedOn < b.awardedOn ? -1 : 1
  if (a.madeBy) return -1
  return b.madeBy ? 1 : a.entry - b.entry
}
