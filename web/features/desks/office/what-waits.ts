import { DUE_SOON_DAYS } from '../../../domain/readiness/due-soon.ts'
import { addressTo, paths } from '../../../paths.ts'
import type { Waiting } from './waiting-list.tsx'

const KINDS = {
  held: {
    one: 'sheet held',
    many: 'sheets held',
    todo: 'Decide them first: until then they count for nothing.',
    to: paths.held,
  },
  amendments: {
    one: 'amendment proposed',
    many: 'amendments proposed',
    todo: 'Confirm or refuse what somebody else proposed.',
    to: paths.contested,
  },
  differing: {
    one: 'attempt on which two graders differ',
    many: 'attempts on which two graders differ',
    todo: 'Talk to both; amend the first sheet where it is wrong.',
    to: paths.twiceGraded,
  },
  twice: {
    one: 'test that may have been sent twice',
    many: 'tests that may have been sent twice',
    todo: 'Choose the sheet that stands.',
    to: paths.twiceGraded,
  },
  appeals: {
    one: 'open appeal',
    many: 'open appeals',
    todo: 'Answer them.',
    to: paths.contested,
  },
  newWords: {
    one: 'new entry of the unit’s lists',
    many: 'new entries of the unit’s lists',
    todo: 'They came in with something else. Say whether they are right.',
    to: paths.armsAndGrades,
  },
  reviews: {
    one: 'retest that needs a review first',
    many: 'retests that need a review first',
    todo: 'Talk it over, and record it, before a retest is booked.',
    to: addressTo(paths.retests, { state: 'review' }),
  },
  pastDue: {
    one: 'retest past due',
    many: 'retests past due',
    todo: 'Book the next free slot.',
    to: addressTo(paths.retests, { state: 'past-due' }),
  },
  dueSoon: {
    one: `retest due within ${DUE_SOON_DAYS} days`,
    many: `retests due within ${DUE_SOON_DAYS} days`,
    todo: 'Book a day before they are due.',
    to: addressTo(paths.retests, { state: 'due-soon' }),
  },
  kept: {
    one: 'GO that stops counting within 30 days',
    many: 'GOs that stop counting within 30 days',
    todo: 'Test before then what the certification lacks.',
    to: addressTo(paths.retests, { view: 'kept' }),
  },
} as const

type Kind = keyof typeof KINDS

/** All that can wait for the office, in the order it is done in. In: how many of each; undefined while it is not known. */
export const whatWaits = (counts: Readonly<Record<Kind, number | undefined>>): Waiting[] =>
  (Object.keys(KINDS) as Kind[]).map((kind) => ({ ...KINDS[kind], count: counts[kind] }))
