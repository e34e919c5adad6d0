import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { followCertification } from '../../../../server/domain/assessment/follow-certification.ts'
import { isConsidered } from '../../../../server/domain/certification/events.ts'
import { compareSheets } from '../../../../server/domain/certification/sheet-order.ts'
import { progressOn } from '../../../../server/domain/certification/status.ts'
import type { Attempt } from '../../../../server/domain/certification/types.ts'
import { attemptNumbers } from '../../../support/attempt-numbers.ts'
import { walk } from '../../../support/walk.ts'
import { arbitrarySoldier } from '../certification/arbitrary-history.ts'
import { SWORD } from './given.ts'

describe('following a certification sheet by sheet', () => {
  it('knows before each sheet what lies before it, and its number, whichever sheets count', () => {
    let moved = 0
    const whichCount = fc.array(fc.boolean(), { minLength: 14, maxLength: 14 })
    fc.assert(
      fc.property(arbitrarySoldier, whichCount, ({ certification, breaks, history }, counts) => {
        const { awards, withdrawals } = history
        const follower = followCertification(certification, breaks, { awards, withdrawals })
        const counted: Attempt[] = []
        const sheets = history.attempts.filter((one) => isConsidered(certification, one)).sort(compareSheets)
        sheets.forEach((sheet, index) => {
          if (index > 0 && sheet.day < sheets[index - 1]!.day) moved += 1
          const before = {
            attempts: counted,
            awards: awards.filter(({ awardedOn }) => awardedOn < sheet.day),
            withdrawals: withdrawals.filter((day) => day < sheet.day),
          }
          expect(follower.before(sheet.day)).toEqual(progressOn(certification, breaks, before, sheet.day))
          const steps = walk(certification, breaks, { attempts: [...counted, sheet], awards, withdrawals })
          expect(follower.attemptNumber(sheet.standard, sheet.day)).toBe(attemptNumbers(steps).get(sheet.id))
          if (!counts[index]) return
          follower.add(sheet)
          counted.push(sheet)
        })
        expect(follower.steps()).toEqual(walk(certification, breaks, { attempts: counted, awards, withdrawals }))
      }),
      { numRuns: 400 },
    )
    expect(moved).toBeGreaterThan(0)
  })
  it('leaves out what has a later day, after a move to an earlier time zone', () => {
    const attempt = (id: string, day: string): Attempt => ({
      id,
      standard: 'standing',
      version: 1,
      arm: 'sword',
      finishedAt: Number(id),
      day,
      outcome: 'NO-GO',
    })
    const awards = [{ awardedOn: '2026-02-10', validThrough: '2027-02-10', entry: 0 }]
    const follower = followCertification(SWORD, [], { awards, withdrawals: [] })
    follower.add(attempt('1', '2026-02-11'))
    expect(follower.before('2026-02-10')).toMatchObject({ award: null, attempts: new Map() })
    expect(follower.attemptNumber('standing', '2026-02-10')).toBe(2)
    follower.add(attempt('2', '2026-02-10'))
    expect(follower.before('2026-02-10').attempts).toEqual(new Map([['standing', 1]]))
    expect(follower.before('2026-02-11').attempts).toEqual(new Map([['standing', 2]]))
    expect(follower.before('2026-02-11').award).toMatchObject({ awardedOn: '2026-02-10' })
  })
})
