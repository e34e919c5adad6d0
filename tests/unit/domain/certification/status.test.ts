import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { certificationStatus, openRetests } from '../../../../server/domain/certification/status.ts'
import { termsOn } from '../../../../server/domain/certification/terms-on.ts'
import type { Certification, History } from '../../../../server/domain/certification/types.ts'
import { arbitraryHistory, arbitrarySoldier, DAYS, dayAt, EVERY_DAY, type SoldierCase } from './arbitrary-history.ts'
import { standingByTheLetter } from './standing-by-the-letter.ts'

const standing = ({ certification, breaks, history }: SoldierCase, day: string) => ({
  status: certificationStatus(certification, breaks, history, day),
  retests: openRetests(certification, breaks, history, day),
})

const shuffled = <Item>(list: readonly Item[]) => fc.shuffledSubarray([...list], { minLength: list.length })

/** The same case with every list in another order. */
const reordered = ({ certification, breaks, history }: SoldierCase): fc.Arbitrary<SoldierCase> =>
  fc.record({
    certification: shuffled(certification.terms).map((terms): Certification => ({ ...certification, terms })),
    breaks: shuffled(breaks),
    history: fc.record({
      attempts: shuffled(history.attempts),
      awards: shuffled(history.awards),
      withdrawals: shuffled(history.withdrawals),
      suspensions: shuffled(history.suspensions),
      reviews: shuffled(history.reviews),
      decisions: shuffled(history.decisions ?? []),
      extensions: shuffled(history.extensions ?? []),
    }),
  })

/** What of a history lies on or before a day, and what after. */
function parted({ history, ...rest }: SoldierCase, day: string, later: History): SoldierCase {
  return {
    ...rest,
    history: {
      attempts: [...history.attempts, ...later.attempts.filter((one) => one.day > day)],
      awards: [
        ...history.awards,
        ...later.awards.filter((one) => one.awardedOn > day).map((one) => ({ ...one, entry: one.entry + 10 })),
      ],
      withdrawals: [...history.withdrawals, ...later.withdrawals.filter((one) => one > day)],
      suspensions: [
        ...history.suspensions.map((one) =>
          one.lift === null && later.suspensions.length > 0 ? { ...one, lift: dayAt(DAYS + 50) } : one,
        ),
        ...later.suspensions.filter((one) => one.from > day),
      ],
      reviews: [...history.reviews, ...later.reviews.filter((one) => one.on > day)],
      decisions: [...(history.decisions ?? []), ...(later.decisions ?? [])],
      extensions: [...(history.extensions ?? []), ...(later.extensions ?? [])],
    },
  }
}

describe('the status of any soldier as of any day', () => {
  it('is what the rules say, read by the letter', () => {
    const words = new Set<string>()
    fc.assert(
      fc.property(arbitrarySoldier, (soldier) => {
        for (const day of EVERY_DAY) {
          const found = standing(soldier, day)
          expect(found, day).toEqual(standingByTheLetter(soldier, day))
          words.add(found.status.status)
        }
      }),
      { numRuns: 200 },
    )
    expect([...words].sort()).toEqual([
      'awaiting approval',
      'certified',
      'lapsed',
      'no test yet',
      'part way',
      'retest due',
      'suspended',
    ])
  })

  it('does not depend on the order in which things are handed over', () => {
    const pairs = arbitrarySoldier.chain((soldier) => reordered(soldier).map((other) => ({ soldier, other })))
    fc.assert(
      fc.property(pairs, ({ soldier, other }) => {
        for (const day of EVERY_DAY.filter((_, index) => index % 7 === 0)) {
          expect(standing(other, day)).toEqual(standing(soldier, day))
        }
      }),
      { numRuns: 100 },
    )
  })

  it('never changes by what happens on later days', () => {
    fc.assert(
      fc.property(
        arbitrarySoldier,
        arbitraryHistory,
        fc.integer({ min: 0, max: DAYS }).map(dayAt),
        (soldier, later, day) => {
          const ids = new Set(soldier.history.attempts.map(({ id }) => id))
          const attempts = later.attempts.filter(({ id }) => !ids.has(id))
          const isOfLater = (award: string) => attempts.some(({ id }) => id === award)
          // Words about an award hold for all its days: those about awards of earlier days stay as they are.
          const fresh = {
            ...later,
            attempts,
            decisions: later.decisions?.filter(({ sheetId }) => isOfLater(sheetId)) ?? [],
            extensions: later.extensions?.filter(({ award }) => isOfLater(award)) ?? [],
          }
          expect(standing(parted(soldier, day, fresh), day)).toEqual(standing(soldier, day))
        },
      ),
      { numRuns: 400 },
    )
  })

  it('is certified by a carried-over award or by a counted GO on every required standard within the window', () => {
    let looked = 0
    fc.assert(
      fc.property(arbitrarySoldier, ({ history: { awards, ...rest }, ...soldier }) => {
        const history = { ...rest, awards: [] }
        for (const day of EVERY_DAY) {
          const { awardedOn } = certificationStatus(soldier.certification, soldier.breaks, history, day)
          if (awardedOn === null) continue
          looked += 1
          const since = addDays(awardedOn, -termsOn(soldier.certification.terms, awardedOn).windowDays)
          const { arms, standards } = soldier.certification
          for (const standard of standards) {
            const gos = history.attempts.filter(
              (one) =>
                one.standard === standard &&
                one.outcome === 'GO' &&
                since <= one.day &&
                one.day <= day &&
                (arms.length === 0 || (one.arm !== null && arms.includes(one.arm))),
            )
            expect(gos, `${standard} by ${day}`).not.toEqual([])
          }
        }
      }),
      { numRuns: 100 },
    )
    expect(looked).toBeGreaterThan(0)
  })

  it('stays certified through a failed renewal, with the retest open', () => {
    fc.assert(
      fc.property(
        arbitrarySoldier,
        fc.integer({ min: 0, max: DAYS }).map(dayAt),
        fc.nat(),
        ({ certification, breaks, history }, day, pick) => {
          const before = certificationStatus(certification, breaks, history, day)
          fc.pre(before.status === 'certified' && before.awardedOn! < day)
          fc.pre(!history.withdrawals.includes(day))
          const standard = certification.standards[pick % certification.standards.length]!
          const lastInstant = Math.max(...history.attempts.map(({ finishedAt }) => finishedAt), Date.parse(day))
          const failed = {
            id: 'ffffffff',
            standard,
            version: 1,
            arm: certification.arms[0] ?? null,
            finishedAt: lastInstant + 1,
            day,
            outcome: 'NO-GO' as const,
          }
          const after = certificationStatus(
            certification,
            breaks,
            { ...history, attempts: [...history.attempts, failed] },
            day,
          )
          expect(after).toEqual({
            ...before,
            toward: before.toward.filter((go) => go.standard !== standard),
            retestOpen: [...new Set([...before.retestOpen, standard])].sort(),
          })
        },
      ),
      { numRuns: 150, maxSkipsPerRun: 500 },
    )
  })
})
