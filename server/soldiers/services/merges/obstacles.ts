import type { Clashes } from '../../db/merges/merge-clashes.db.ts'

interface Obstacle {
  readonly rule: string
  readonly detail: string
}

/** Why each clash stands in the way, and what to do about it. */
const SAYS: Record<keyof Clashes, string> = {
  coachedEachOther:
    'One of the two is of record as the other’s sponsor, and nobody coaches themselves. They are two people, or the sponsorship is wrong.',
  metAtTests:
    'On a test or a booking the two stand in different parts, as candidate, sponsor or grader. They are two people, or the sheet is wrong: amend or cancel it first.',
  accounts: 'Both have an account. Let an administrator take the soldier from one of them first.',
  ceremonies: 'Both are named in the same ceremony, to posts or as alternates. Take one of the names off first.',
  bookings: 'Both are booked for the same test on the same test day. Cancel one of the bookings first.',
  slots: 'Both grade in slots at the same time. Give one of the slots to another grader first.',
  sponsorships: 'Sponsorships of both with the same person overlap in part. Mend the days of one first.',
  appointments: 'Appointments of both for the same standard overlap in part. Mend the days of one first.',
  absences: 'Absences of both overlap in part. Mend the days of one first.',
}

/** Two accounts are two; one is no clash. */
const LEAST: Partial<Record<keyof Clashes, number>> = { accounts: 2 }

/** What stands in the way of merging two entries. */
export const obstaclesOf = (clashes: Clashes): Obstacle[] =>
  (Object.keys(SAYS) as (keyof Clashes)[])
    .filter((rule) => clashes[rule] >= (LEAST[rule] ?? 1))
    .map((rule) => ({ rule: rule.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`), detail: SAYS[rule] }))
