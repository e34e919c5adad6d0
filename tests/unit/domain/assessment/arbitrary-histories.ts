import fc from 'fast-check'
import type { AssessedSheet, Dossier } from '../../../../server/domain/assessment/types.ts'
import type { Certification } from '../../../../server/domain/certification/types.ts'
import { givenCatalogue, givenDossier, givenSheet, SWORD, TERMS } from './given.ts'

const DRILL: Certification = {
  code: 'drill',
  standards: ['standing', 'rifle-standing'],
  arms: [],
  terms: [
    { ...TERMS, windowDays: 20, validityMonths: 1, reviewAfter: 1, sequence: 'in-order' },
    { ...TERMS, effectiveFrom: '2026-01-20', windowDays: 40, waitDays: 0 },
  ],
}
export const catalogue = givenCatalogue({
  certifications: [SWORD, DRILL],
  breaks: [{ standard: 'standing', version: 2, effectiveFrom: '2026-01-25' }],
})

export const dayOf = (offset: number) => new Date(Date.UTC(2026, 0, 1 + offset)).toISOString().slice(0, 10)
const arbitraryDay = fc.integer({ min: 0, max: 45 }).map(dayOf)

/** Sheets of every kind; where the unit's zone changed, a day may be the next or the one before. */
export const arbitrarySheets: fc.Arbitrary<AssessedSheet[]> = fc
  .array(
    fc.record({
      offset: fc.integer({ min: 0, max: 45 }),
      zoneMove: fc.constantFrom(0, 0, 0, 0, 0, 1, -1),
      hour: fc.constantFrom(8, 8.5, 12, 17),
      standard: fc.constantFrom('standing', 'standing', 'marching', 'rifle-standing'),
      arm: fc.constantFrom('sword', 'sword', 'rifle', null),
      outcome: fc.constantFrom<AssessedSheet['outcome'][]>('GO', 'GO', 'GO', 'NO-GO', 'NO-GO', 'VOID'),
      purpose: fc.constantFrom<AssessedSheet['purpose'][]>('test', 'test', 'test', 'test', 'practice'),
      second: fc.constantFrom(null, null, null, null, 'id-0'),
      graderId: fc.constantFrom('grader', 'grader', 'coach', 'stranger'),
      sponsorId: fc.constantFrom('sponsor', 'sponsor', null),
      conditionsMet: fc.constantFrom(true, true, true, false),
    }),
    { maxLength: 9 },
  )
  .map((list) =>
    list.map(({ offset, zoneMove, second, ...sheet }, index) => {
      const secondOf = index === 0 ? null : second
      return {
        ...givenSheet(`id-${index}`, dayOf(offset), { ...sheet, secondOf, isSecond: secondOf !== null }),
        day: dayOf(offset + zoneMove),
      }
    }),
  )

/** Everything but sheets that a judgement hangs on. */
export const arbitraryPast: fc.Arbitrary<Dossier> = fc
  .record({
    coached: fc.array(fc.record({ from: arbitraryDay, days: fc.integer({ min: 0, max: 30 }) }), { maxLength: 1 }),
    reviews: fc.array(fc.record({ standard: fc.constantFrom('standing', 'marching'), on: arbitraryDay }), {
      maxLength: 2,
    }),
    awards: fc.array(fc.record({ awardedOn: arbitraryDay, validThrough: arbitraryDay }), { maxLength: 1 }),
    withdrawals: fc.array(arbitraryDay, { maxLength: 1 }),
    suspensions: fc.array(fc.record({ from: arbitraryDay, lift: fc.constant(null) }), { maxLength: 1 }),
    moves: fc.array(arbitraryDay, { maxLength: 1 }),
  })
  .map(({ coached, reviews, awards, withdrawals, suspensions, moves }) =>
    givenDossier({
      sponsorships: [
        ...givenDossier().sponsorships,
        ...coached.map(({ from, days }) => ({ sponsorId: 'coach', from, to: dayOf(days + 15) })),
      ],
      reviews,
      awards: new Map([['drill', awards.map((award, entry) => ({ ...award, entry }))]]),
      withdrawals: new Map([['sword', withdrawals]]),
      suspensions: new Map([['sword', suspensions]]),
      periods: moves[0]
        ? [
            { from: '2020-01-01', through: moves[0], unitId: 'first-platoon', arms: ['sword', 'rifle'] },
            { from: dayOf(46), through: null, unitId: 'second-platoon', arms: ['rifle'] },
          ]
        : givenDossier().periods,
    }),
  )
