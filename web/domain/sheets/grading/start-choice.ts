import type { Standard } from '#contract/standards/standards.ts'
import type { DayList, ListedBooking, ListedCandidate } from '#contract/test-days/day-list.ts'
import type { SheetHead } from './sheet-head.ts'

/** Whom somebody is about to grade, and as what. */
export interface StartChoice {
  readonly purpose: SheetHead['purpose']
  /** Null: somebody without a booking, not named yet. */
  readonly candidate: ListedCandidate | null
  readonly booking: ListedBooking | null
  /** What can be graded. */
  readonly standards: readonly Standard[]
}

/** The version of a standard in force on a day, of those on a list. */
export const versionOn = (standards: readonly Standard[], code: string, day: string): Standard | undefined =>
  standards
    .filter((standard) => standard.code === code && standard.effectiveFrom <= day)
    .sort((a, b) => b.effectiveFrom.localeCompare(a.effectiveFrom))[0]

/** Every standard once, in its version in force on a day, by title. */
const allOn = (standards: readonly Standard[], day: string): Standard[] =>
  [...new Set(standards.map(({ code }) => code))]
    .flatMap((code) => versionOn(standards, code, day) ?? [])
    .sort((a, b) => a.title.localeCompare(b.title, 'en'))

/**
 * What the day list offers to who starts a sheet: a booking (test), a candidate one coaches (practice), or, with neither,
 * somebody without a booking. Null: the list knows no such booking or candidate.
 */
export const startChoice = (
  list: DayList,
  asked: { readonly booking?: string | undefined; readonly coached?: string | undefined },
): StartChoice | null => {
  if (asked.booking) {
    const booking = list.bookings.find(({ id }) => id === asked.booking)
    if (!booking) return null
    const standard = versionOn(list.standards, booking.standard, booking.on)
    return { purpose: 'test', candidate: booking.candidate, booking, standards: standard ? [standard] : [] }
  }
  const standards = allOn(list.standards, list.today)
  if (!asked.coached) return { purpose: 'test', candidate: null, booking: null, standards }
  const candidate = list.coached.find(({ id }) => id === asked.coached)
  if (!candidate) return null
  const carried = standards.filter(({ arms }) => arms.length === 0 || arms.some((arm) => candidate.arms.includes(arm)))
  return { purpose: 'practice', candidate, booking: null, standards: carried }
}

/** The arms to choose from: those of the standard that the candidate carries; all of the standard where that is none or not known. */
export const armsFor = (standard: Standard, candidate: Pick<ListedCandidate, 'arms'> | null): readonly string[] => {
  const carried = standard.arms.filter((arm) => candidate?.arms.includes(arm))
  return carried.length > 0 ? carried : standard.arms
}
