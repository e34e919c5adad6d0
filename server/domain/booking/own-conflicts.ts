import { sponsorOn } from './sponsor-on.ts'
import type { BookingConflict, BookingPlace, Prospect } from './types.ts'

/** What stands in the way on the day itself: booked already, not of the strength, absent. */
export function ownConflicts(prospect: Prospect, { testDayId, day, graderId }: BookingPlace): BookingConflict[] {
  const { candidateId, standard, dossier, absences } = prospect
  const same = prospect.bookings.filter((one) => one.standard === standard && one.id !== prospect.movedId)
  const elsewhere = same.find((one) => one.open && one.testDayId !== testDayId)
  const isAbsent = (person: string | null) =>
    person !== null && (absences.get(person) ?? []).some((one) => isIn(one, day))
  const found: (BookingConflict | false)[] = [
    same.some((one) => one.testDayId === testDayId) && {
      rule: 'booked-already',
      weight: 'blocks',
      detail: 'The candidate is booked for this standard on this test day already.',
    },
    !dossier.periods.some((period) => isIn(period, day)) && {
      rule: 'not-in-strength',
      weight: 'blocks',
      detail: 'The candidate is not on strength that day.',
    },
    elsewhere !== undefined && {
      rule: 'booked-elsewhere',
      weight: 'warns',
      detail: `The candidate is booked for this standard on ${elsewhere.day} already; this would be a second slot.`,
    },
    isAbsent(candidateId) && {
      rule: 'candidate-absent',
      weight: 'warns',
      detail: 'The candidate is entered as absent that day.',
    },
    isAbsent(sponsorOn(dossier.sponsorships, day)) && {
      rule: 'sponsor-absent',
      weight: 'warns',
      detail: 'The sponsor, who must be present, is entered as absent that day.',
    },
    isAbsent(graderId) && {
      rule: 'grader-absent',
      weight: 'warns',
      detail: 'The grader is entered as absent that day.',
    },
  ]
  return found.filter((one) => one !== false)
}

const isIn = ({ from, through }: { from: string; through: string | null }, day: string): boolean =>
  from <= day && (through === null || day <= through)
