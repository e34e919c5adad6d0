import { afterEach, describe, expect, it, vi } from 'vitest'
import { clockAhead, noteServerTime, onClockFound, rightNow } from '../../../../web/api/server-clock.ts'
import { formatClockAhead, notesWithClock } from '../../../../web/domain/sheets/grading/format-clock.ts'

const HOUR_MS = 3_600_000
const THERE = '2026-06-17T14:00:00.000Z'
const there = Date.parse(THERE)

afterEach(() => noteServerTime(THERE, there, there))

describe('the clock of a phone', () => {
  it('is right within a minute, and its times stay as they are', () => {
    noteServerTime(THERE, there + 40_000, there + 41_000)
    expect(clockAhead()).toBe(0)
  })

  it('is found wrong by any answer, in either direction, and the right time is known', () => {
    vi.useFakeTimers({ now: there + 26 * HOUR_MS })
    const found: number[] = []
    const stop = onClockFound(() => found.push(clockAhead()))
    noteServerTime(THERE, there + 26 * HOUR_MS - 100, there + 26 * HOUR_MS + 100)
    expect(rightNow().toISOString()).toBe(THERE)
    noteServerTime(THERE, there - HOUR_MS, there - HOUR_MS)
    noteServerTime(THERE, there - HOUR_MS, there - HOUR_MS)
    stop()
    expect(found).toEqual([26 * HOUR_MS, -HOUR_MS])
    vi.useRealTimers()
  })

  it('is not judged by an answer that says no time, or was long on its way', () => {
    for (const said of [null, '', 'soon']) noteServerTime(said, there + HOUR_MS, there + HOUR_MS)
    noteServerTime(THERE, there + HOUR_MS, there + HOUR_MS + 30_000)
    expect(clockAhead()).toBe(0)
  })

  it('is said in words a grader can act on, and once on the sheet', () => {
    expect([26 * HOUR_MS, -3 * 60_000, 90 * 60_000, 72 * HOUR_MS].map(formatClockAhead)).toEqual([
      '26 hours ahead',
      '3 minutes behind',
      '90 minutes ahead',
      '3 days ahead',
    ])
    const noted = notesWithClock('Wind from the west.', 26 * HOUR_MS)
    expect(noted).toBe('Wind from the west.\nThe phone’s clock was 26 hours ahead; times are by the server’s clock.')
    expect(notesWithClock(noted, 26 * HOUR_MS)).toBe(noted)
    expect(notesWithClock('', 0)).toBe('')
  })
})
