import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PracticeBody } from '../../../server/contract/coaching/practices.ts'
import {
  applyToPractice,
  type PracticeEvent,
  practiceBody,
  startPractice,
} from '../../../web/domain/coaching/running-practice.ts'
import '../domain/statistics/fixed-seed.ts'

const BEGUN = startPractice(
  {
    candidate: { id: '00000000-0000-4000-8000-000000000001', grade: 'CPL', familyName: 'Amadi' },
    standard: 'standing',
    standardVersion: 1,
    arm: 'sword',
  },
  ['draw', 'halt', 'turn'],
  '2026-06-17T14:00:00.000Z',
)

const event: fc.Arbitrary<PracticeEvent> = fc.oneof(
  fc.record({ kind: fc.constant('mark' as const), mark: fc.constantFrom('correct' as const, 'incorrect' as const) }),
  fc.record({ kind: fc.constant('fault' as const), fault: fc.constantFrom('slow', 'tip-low') }),
  fc.constant({ kind: 'undo' as const }),
  fc.record({ kind: fc.constant('show' as const), at: fc.integer({ min: -1, max: 3 }) }),
)
const practised = (events: readonly PracticeEvent[]) => events.reduce(applyToPractice, BEGUN)

describe('practice of chosen measures on a phone', () => {
  it('whatever is tapped is well formed for the server, with a fault on no trial that is not there', () => {
    fc.assert(
      fc.property(fc.array(event, { maxLength: 60 }), (events) => {
        const practice = practised(events)
        const body = practiceBody(practice, '2026-06-17T14:10:00.000Z')
        const marked = practice.measures.reduce((sum, { trials }) => sum + trials.length, 0)
        expect(practice.marked.length).toBe(marked)
        expect(body === null).toBe(marked === 0)
        for (const { trials, faults } of body === null ? [] : PracticeBody.parse(body).measures) {
          expect(faults.every(({ trial }) => trial <= trials.length)).toBe(true)
          expect(new Set(faults.map((one) => JSON.stringify(one))).size).toBe(faults.length)
        }
      }),
    )
  })

  it('takes every mark back, the last first, on whichever measure it was', () => {
    fc.assert(
      fc.property(fc.array(event, { maxLength: 40 }), (events) => {
        let practice = practised(events)
        while (practice.marked.length > 0) {
          const before = practice.marked.length
          practice = applyToPractice(practice, { kind: 'undo' })
          expect(practice.marked.length).toBe(before - 1)
        }
        expect(practice.measures).toEqual(BEGUN.measures)
        expect(applyToPractice(practice, { kind: 'undo' })).toBe(practice)
      }),
    )
  })

  it('ends no earlier than it began, where the clock was put back meanwhile', () => {
    const practice = applyToPractice(BEGUN, { kind: 'mark', mark: 'correct' })
    expect(practiceBody(practice, '2026-06-17T13:00:00.000Z')?.finishedAt).toBe(practice.startedAt)
  })
})
