import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nextAttempt, type WrongAttempts } from '../../../../server/domain/access/next-attempt.ts'

const limits = { free: 3, longestSeconds: 60, forgivenInSeconds: 600 }
const start = Date.UTC(2026, 5, 15, 12)
const none: WrongAttempts = { level: 0, countedAt: start, waitUntil: null }

/** WrongAttempts as soon as one may, so many times. Out: the wait in seconds after each. */
function waitsOf(count: number): number[] {
  const waits: number[] = []
  let attempts = none
  let now = start
  for (let made = 0; made < count; made += 1) {
    const next = nextAttempt(attempts, limits, now)
    if ('waitSeconds' in next) throw new Error('It was early.')
    attempts = next.attempts
    waits.push(attempts.waitUntil === null ? 0 : (attempts.waitUntil - now) / 1000)
    now = attempts.waitUntil ?? now
  }
  return waits
}

describe('nextAttempt', () => {
  it('lets the free ones pass, then doubles the wait up to the longest', () => {
    expect(waitsOf(12)).toEqual([0, 0, 0, 1, 2, 4, 8, 16, 32, 60, 60, 60])
  })

  it('neither makes nor counts an attempt while the wait lasts, and says how long', () => {
    const waiting = { level: 8, countedAt: start, waitUntil: start + 16_000 }
    expect(nextAttempt(waiting, limits, start + 500)).toEqual({ waitSeconds: 16 })
    expect(nextAttempt(waiting, limits, start + 15_999)).toEqual({ waitSeconds: 1 })
    expect(nextAttempt(waiting, limits, start + 16_000)).toMatchObject({ attempts: { countedAt: start + 16_000 } })
  })

  it('takes back one in ten minutes', () => {
    const levelAfter = (seconds: number) => nextAttempt({ ...none, level: 3 }, limits, start + seconds * 1000)
    expect(levelAfter(0)).toMatchObject({ attempts: { level: 4 } })
    expect(levelAfter(600)).toMatchObject({ attempts: { level: 3, waitUntil: null } })
    expect(levelAfter(1800)).toMatchObject({ attempts: { level: 1 } })
    expect(levelAfter(1e9)).toMatchObject({ attempts: { level: 1 } })
  })

  it('locks nobody out: whatever came before, after the longest wait an attempt is made', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(5000), { maxLength: 60 }), (pauses) => {
        let attempts = none
        let now = start
        for (const seconds of pauses) {
          now += seconds * 1000
          const next = nextAttempt(attempts, limits, now)
          if ('attempts' in next) attempts = next.attempts
        }
        expect(nextAttempt(attempts, limits, now + limits.longestSeconds * 1000)).toHaveProperty('attempts')
      }),
    )
  })

  it('is not fooled by a clock that goes back', () => {
    expect(nextAttempt({ ...none, level: 3 }, limits, start - 3_600_000)).toMatchObject({ attempts: { level: 4 } })
  })
})
