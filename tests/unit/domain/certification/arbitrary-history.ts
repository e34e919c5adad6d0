import fc from 'fast-check'
import { addDays, toEpochDay } from '../../../../server/domain/calendar/plain-date.ts'
import type { Attempt, Break, Certification, History, Terms } from '../../../../server/domain/certification/types.ts'

export interface SoldierCase {
  readonly certification: Certification
  readonly breaks: readonly Break[]
  readonly history: History
}

export const FIRST_DAY = '2024-01-10'
/** Everything happens on the first so many days. */
export const DAYS = 110

const DAY = 86_400_000
const STANDARDS = ['marching', 'standing', 'rifle-standing']

/** The day so many days after the first. */
export const dayAt = (offset: number): string => addDays(FIRST_DAY, offset)

/** Any day, but often one of a few, so that much falls on one day or on its neighbours. */
const arbitraryDay = fc
  .oneof(
    { weight: 2, arbitrary: fc.integer({ min: 0, max: DAYS }) },
    { weight: 1, arbitrary: fc.integer({ min: 40, max: 42 }) },
  )
  .map(dayAt)

const arbitraryTermsFrom = (effectiveFrom: fc.Arbitrary<string>): fc.Arbitrary<Terms> =>
  fc.record({
    effectiveFrom,
    sequence: fc.constant('any' as const),
    windowDays: fc.constantFrom(1, 10, 30, 45),
    validityMonths: fc.constantFrom(1, 1, 2, 12),
    waitDays: fc.constantFrom(0, 7),
    dueDays: fc.constantFrom(0, 5, 30),
    reviewAfter: fc.integer({ min: 1, max: 3 }),
    approval: fc.constantFrom('none' as const, 'none' as const, 'required' as const, 'required-from-award' as const),
    extensionDays: fc.constant(60),
  })

const arbitraryCertification: fc.Arbitrary<Certification> = fc.record({
  code: fc.constant('sword'),
  standards: fc.shuffledSubarray(STANDARDS, { minLength: 1, maxLength: 3 }),
  arms: fc.constantFrom([], [], ['sword'], ['sword', 'saber']),
  terms: fc
    .tuple(
      arbitraryTermsFrom(fc.constantFrom(dayAt(-400), FIRST_DAY)),
      fc.uniqueArray(arbitraryTermsFrom(fc.integer({ min: 1, max: DAYS }).map(dayAt)), {
        maxLength: 2,
        selector: ({ effectiveFrom }) => effectiveFrom,
      }),
    )
    .map(([first, later]) => [first, ...later]),
})

/** The instants follow the days, save for up to a day each way where the unit's zone changed; some finish together. */
const arbitraryAttempt: fc.Arbitrary<Attempt> = fc
  .record({
    id: fc.integer({ min: 0, max: 0xffff }).map((number) => `0000${number.toString(16).padStart(4, '0')}`),
    standard: fc.constantFrom(...STANDARDS),
    version: fc.integer({ min: 1, max: 3 }),
    arm: fc.constantFrom('sword', 'sword', 'sword', 'saber', 'rifle', null),
    day: arbitraryDay,
    zoneMove: fc.constantFrom(0, 0, 0, 0, 0, 0, -1, 1),
    hour: fc.constantFrom(8, 9, 9, 15),
    outcome: fc.constantFrom<Attempt['outcome'][]>('GO', 'GO', 'GO', 'NO-GO', 'NO-GO'),
  })
  .map(({ zoneMove, hour, ...attempt }) => ({
    ...attempt,
    finishedAt: (toEpochDay(attempt.day) + zoneMove) * DAY + hour * 3_600_000,
  }))

const arbitraryBreaks: fc.Arbitrary<Break[]> = fc.array(
  fc.record({
    standard: fc.constantFrom(...STANDARDS),
    version: fc.integer({ min: 2, max: 3 }),
    effectiveFrom: arbitraryDay,
  }),
  { maxLength: 2 },
)

const arbitraryAwards = fc
  .array(
    fc.record({
      awardedOn: arbitraryDay,
      validThrough: fc.integer({ min: -5, max: DAYS + 40 }).map(dayAt),
    }),
    { maxLength: 2 },
  )
  .map((awards) => awards.map((award, entry) => ({ ...award, id: `carried ${entry}`, entry })))

const arbitrarySuspensions = fc.array(
  fc
    .record({ from: fc.integer({ min: 0, max: DAYS }), days: fc.integer({ min: 0, max: 40 }), open: fc.boolean() })
    .map(({ from, days, open }) => ({ from: dayAt(from), lift: open ? null : dayAt(from + days) })),
  { maxLength: 2 },
)

/** What commanders said of the awards of some sheets, and of carried-over ones, whether they are made or not. */
const wordsAbout = ({ attempts, awards }: History) =>
  fc.record({
    decisions: fc.subarray(attempts.map(({ id }) => id)).chain((ids) =>
      fc.tuple(
        ...ids.map((sheetId) =>
          fc.record({
            sheetId: fc.constant(sheetId),
            decision: fc.constantFrom('approve' as const, 'approve' as const, 'refuse' as const),
            on: arbitraryDay,
          }),
        ),
      ),
    ),
    extensions: fc.array(
      fc.record({
        award: fc.constantFrom('none such', ...attempts.map(({ id }) => id), ...awards.map(({ id }) => id!)),
        days: fc.integer({ min: 1, max: 40 }),
      }),
      { maxLength: 4 },
    ),
  })

export const arbitraryHistory: fc.Arbitrary<History> = fc
  .record({
    attempts: fc.uniqueArray(arbitraryAttempt, { maxLength: 14, selector: ({ id }) => id }),
    awards: fc.oneof({ weight: 2, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: arbitraryAwards }),
    withdrawals: fc.oneof(
      { weight: 2, arbitrary: fc.constant([]) },
      { weight: 1, arbitrary: fc.array(arbitraryDay, { maxLength: 2 }) },
    ),
    suspensions: arbitrarySuspensions,
    reviews: fc.array(fc.record({ standard: fc.constantFrom(...STANDARDS), on: arbitraryDay }), { maxLength: 3 }),
  })
  .chain((history) => wordsAbout(history).map((words) => ({ ...history, ...words })))

/** A soldier's history in a certification, with changing terms and versions of its standards that are not equivalent. */
export const arbitrarySoldier: fc.Arbitrary<SoldierCase> = fc.record({
  certification: arbitraryCertification,
  breaks: arbitraryBreaks,
  history: arbitraryHistory,
})

/** The days on which the properties are looked at: all on which something happens, and well before and after. */
export const EVERY_DAY: readonly string[] = Array.from({ length: DAYS + 150 }, (_, index) => dayAt(index - 10))
