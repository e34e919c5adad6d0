import type { Obstacle } from '../../../errors.ts'
import type { Clashes } from '../../db/merges/merge-clashes.db.ts'

/** Why each clash stands in the way, and what to do about it. */
const OBSTACLES: Record<keyof Clashes, Obstacle> = {
  coachedEachOther: {
    rule: 'coached-each-other',
    detail:
      'One of the two is of record as the other’s sponsor, and nobody coaches themselves. They are two people, or the sponsorship is wrong.',
  },
  metAtTests: {
    rule: 'met-at-tests',
    detail:
      'On a test or a booking the two stand in different parts, as candidate, sponsor or grader. They are two people, or the sheet is wrong: amend or cancel it first.',
  },
  accounts: {
    rule: 'accounts',
    detail: 'Both have an account. Let an administrator take the soldier from one of them first.',
  },
  ceremonies: {
    rule: 'ceremonies',
    detail: 'Both are named in the same ceremony, to posts or as alternates. Take one of the names off first.',
  },
  bookings: {
    rule: 'bookings',
    detail: 'Both are booked for the same test on the same test day. Cancel one of the bookings first.',
  },
  slots: {
    rule: 'slots',
    detail: 'Both grade in slots at the same time. Give one of the slots to another grader first.',
  },
  sponsorships: {
    rule: 'sponsorships',
    detail: 'Sponsorships of both with the same person overlap in part. Mend the days of one first.',
  },
  appointments: {
    rule: 'appointments',
    detail: 'Appointments of both for the same standard overlap in part. Mend the days of one first.',
  },
  absences: {
    rule: 'absences',
    detail: 'Absences of both overlap in part. Mend the days of one first.',
  },
}

/** Two accounts are two; one is no clash. */
const LEAST: Partial<Record<keyof Clashes, number>> = { accounts: 2 }

/** What stands in the way of merging two entries. */
export const obstaclesOf = (clashes: Clashes): Obstacle[] =>
  (Object.keys(OBSTACLES) as (keyof Clashes)[])
    .filter((clash) => clashes[clash] >= (LEAST[clash] ?? 1))
    .map((clash) => OBSTACLES[clash])
