import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nextTry, type Tries } from '../../../../server/domain/access/next-try.ts'

const limits = { free: 3, longestSeconds: 60, forgivenInSeconds: 600 }
const start = Date.UTC(2026, 5, 15, 12)
const none: Tries = { level: 0, countedAt: start, waitUntil: null }

/** Tries as soon as one may, so many times. Out: the wait in seconds after each. */
function waitsOf(count: number): number[] {
  const waits: number[] = []
  let tries = none
  let now = start
  for (let made = 0; made < count; made += 1) {
    const next = nextTry(tries, limits, now)
    if ('waitSeconds' in next) throw new Error('It was early.')
    tries = next.tries
    waits.push(tries.waitUntil === null ? 0 : (tries.waitUntil - now) / 1000)
    now = tries.waitUntil ?? now
  }
  return waits
}

describe('nextTry', () => {
  it('lets the free ones pass, then doubles the wait up to the longest', () => {
    expect(waitsOf(12)).toEqual([0, 0, 0, 1, 2, 4, 8, 16, 32, 60, 60, 60])
  })

  it('neither makes nor counts a try while the wait lasts, and says how long', () => {
    const waiting = { level: 8, countedAt: start, waitUntil: start + 16_000 }
    expect(nextTry(waiting, limits, start + 500)).toEqual({ waitSeconds: 16 })
    expect(nextTry(waiting, limits, start + 15_999)).toEqual({ waitSeconds: 1 })
    expect(nextTry(waiting, limits, start + 16_000)).toMatchObject({ tries: { countedAt: start + 16_000 } })
  })

  it('takes back one in ten minutes', () => {
    const levelAfter = (seconds: number) => nextTry({ ...none, level: 3 }, limits, start + seconds * 1000)
    expect(levelAfter(0)).toMatchObject({ tries: { level: 4 } })
    expect(levelAfter(600)).toMatchObject({ tries: { level: 3, waitUntil: null } })
    expect(levelAfter(1800)).toMatchObject({ tries: { level: 1 } })
    expect(levelAfter(1e9)).toMatchObject({ tries: { level: 1 } })
  })

  it('locks nobody out: whatever came before, after the longest wait a try is made', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(5000), { maxLength: 60 }), (pauses) => {
        let tries = none
        let now = start
        for (const seconds of pauses) {
          now += seconds * 1000
          const next = nextTry(tries, limits, now)
          if ('tries' in next) tries = next.tries
        }
        expect(nextTry(tries, limits, now + limits.longestSeconds * 1000)).toHaveProperty('tries')
      }),
    )
  })

  it('is not fooled by a clock that goes back', () => {
    expect(nextTry({ ...none, level: 3 }, limits, start - 3_600_000)).toMatchObject({ tries: { level: 4 } })
  })
})
