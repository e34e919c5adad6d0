import { sponsorOn } from './sponsor-on.ts'
import type { BookingConflict, BookingPlace, Engagement, Prospect, Stretch } from './types.ts'

/** What takes the time of candidate, sponsor or grader while the test would run; nothing where no time is said. */
export function timeConflicts(prospect: Prospect, { day, time, graderId }: BookingPlace): BookingConflict[] {
  if (time === null) return []
  const during = (person: string | null): Engagement[] =>
    person === null ? [] : (prospect.engagements.get(person) ?? []).filter((one) => overlap(one, time))
  const candidate = during(prospect.candidateId).filter(
    ({ bookingId }) => bookingId !== prospect.movedId || bookingId === null,
  )
  const sponsor = during(sponsorOn(prospect.dossier.sponsorships, day))
  const found: (BookingConflict | false)[] = [
    candidate.some(({ kind }) => kind !== 'ceremony') && {
      rule: 'two-at-once',
      weight: 'blocks',
      detail: 'The candidate is tested or grades at that time already.',
    },
    candidate.some(({ kind }) => kind === 'ceremony') && {
      rule: 'candidate-on-ceremony',
      weight: 'warns',
      detail: 'The candidate stands at a ceremony or its rehearsal at that time.',
    },
    sponsor.length > 0 && {
      rule: 'sponsor-busy',
      weight: 'warns',
      detail: `The sponsor, who must be present, ${SPONSOR_IS[sponsor[0]!.kind]} at that time.`,
    },
    during(graderId).some(({ kind }) => kind === 'ceremony') && {
      rule: 'grader-on-ceremony',
      weight: 'warns',
      detail: 'The grader stands at a ceremony or its rehearsal at that time.',
    },
  ]
  return found.filter((one) => one !== false)
}

const SPONSOR_IS = { test: 'is tested', grading: 'grades', ceremony: 'stands at a ceremony' } as const

/** Whether two stretches share more than an end. */
export const overlap = (a: Stretch, b: Stretch): boolean => a.from < b.to && b.from < a.to
