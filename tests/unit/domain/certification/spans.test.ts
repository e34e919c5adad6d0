import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addDays } from '../../../../server/domain/calendar/plain-date.ts'
import { certificationSpans, type Span } from '../../../../server/domain/certification/spans.ts'
import { certificationStatus, openRetests } from '../../../../server/domain/certification/status.ts'
import { earnedAwards } from '../../../../server/domain/certification/walk.ts'
import { attemptNumbers } from '../../../support/attempt-numbers.ts'
import { walk } from '../../../support/walk.ts'
import { arbitrarySoldier, EVERY_DAY, type SoldierCase } from './arbitrary-history.ts'

const NOTHING = {
  status: 'no test yet',
  awardedOn: null,
  validThrough: null,
  suspended: false,
  toward: [],
  retestOpen: [],
}

const spansOf = ({ certification, breaks, history }: SoldierCase) =>
  certificationSpans(certification, breaks, history, walk(certification, breaks, history))

const on = <Value>(spans: readonly Span<Value>[], day: string): Value[] =>
  spans.filter(({ from, through }) => from <= day && (through === null || day <= through)).map(({ value }) => value)

const expectTidy = (spans: readonly Span<unknown>[]) => {
  spans.forEach((span, index) => {
    if (span.through !== null) expect(span.through >= span.from, `${span.from} to ${span.through}`).toBe(true)
    const before = spans[index - 1]
    if (!before) return
    expect(before.through !== null && before.through < span.from).toBe(true)
    if (addDays(before.through!, 1) === span.from) expect(before.value).not.toEqual(span.value)
  })
}

describe('the spans of any soldier', () => {
  it('say on every day what the status and the open retests of that day are', () => {
    fc.assert(
      fc.property(arbitrarySoldier, (soldier) => {
        const { certification, breaks, history } = soldier
        const { statuses, retests } = spansOf(soldier)
        for (const day of EVERY_DAY) {
          const status = certificationStatus(certification, breaks, history, day)
          expect(on(statuses, day), day).toEqual(status.status === 'no test yet' && !status.suspended ? [] : [status])
          if (status.status === 'no test yet' && !status.suspended) expect(status).toEqual(NOTHING)
          const open = on(retests, day)
            .map((retest) => ({ ...retest, pastDue: day > retest.due }))
            .sort((a, b) => (a.standard < b.standard ? -1 : 1))
          expect(open, day).toEqual(openRetests(certification, breaks, history, day))
        }
      }),
      { numRuns: 150 },
    )
  })

  it('are as few as say it, in order and apart', () => {
    fc.assert(
      fc.property(arbitrarySoldier, (soldier) => {
        const { statuses, retests } = spansOf(soldier)
        expectTidy(statuses)
        for (const standard of soldier.certification.standards) {
          expectTidy(retests.filter(({ value }) => value.standard === standard))
        }
      }),
      { numRuns: 150 },
    )
  })
})

describe('a walk through any history', () => {
  it('numbers attempts from 1 on and anew after an award or a withdrawal', () => {
    fc.assert(
      fc.property(arbitrarySoldier, ({ certification, breaks, history }) => {
        const steps = walk(certification, breaks, history)
        const numbers = attemptNumbers(steps)
        const counts = new Map<string, number>()
        for (const { event, before, after } of steps) {
          if (event.kind === 'attempt') {
            const number = (counts.get(event.attempt.standard) ?? 0) + 1
            expect(numbers.get(event.attempt.id)).toBe(number)
            counts.set(event.attempt.standard, number)
          }
          if (event.kind === 'withdrawal' || after.award !== before.award) counts.clear()
        }
      }),
      { numRuns: 150 },
    )
  })

  it('lists an award for each sheet that made one, as of the last day', () => {
    fc.assert(
      fc.property(arbitrarySoldier, ({ certification, breaks, history }) => {
        const earned = earnedAwards(walk(certification, breaks, history))
        const { awards, withdrawals, ...rest } = history
        for (const { awardedOn, madeBy } of earned) {
          expect(rest.attempts.find(({ id }) => id === madeBy!.id)).toMatchObject({ outcome: 'GO', day: awardedOn })
        }
        const end = certificationStatus(certification, breaks, history, EVERY_DAY.at(-1)!)
        const signed = earned.filter(({ inForceFrom }) => inForceFrom !== null)
        const made = [...signed.map(({ awardedOn }) => awardedOn), ...awards.map(({ awardedOn }) => awardedOn)]
        if (end.awardedOn === null) expect(made).toEqual([])
        else expect(made).toContain(end.awardedOn)
      }),
      { numRuns: 150 },
    )
  })
})
