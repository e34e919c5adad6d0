import { describe, expect, it } from 'vitest'
import { dueCalendar, mondayOf } from '../../../web/charts/due-calendar.ts'
import { markPlan } from '../../../web/charts/mark-plan.ts'
import { plotScale } from '../../../web/charts/plot-scale.ts'
import { readingScale } from '../../../web/charts/reading-scale.ts'
import { formatTrials } from '../../../web/charts/trial-bars.tsx'
import { emptyTally } from '../../../web/parts/readiness/tally-status.ts'

describe('marks for people', () => {
  it('are one each, in order of state', () => {
    const tally = { ...emptyTally(), lapsed: 1, certified: 2, 'no test yet': 1 }
    expect(markPlan(tally, 400)).toEqual({ each: 1, marks: ['certified', 'certified', 'lapsed', 'no test yet'] })
  })
  it('stand for several when there are too many, and never drop a state', () => {
    const { each, marks } = markPlan({ ...emptyTally(), certified: 150_000, suspended: 3 }, 400)
    expect(each).toBe(500)
    expect(marks.filter((state) => state === 'certified')).toHaveLength(300)
    expect(marks.filter((state) => state === 'suspended')).toHaveLength(1)
  })
})

describe('weeks of what is due', () => {
  // 25 November 2026 is a Wednesday (`date -d 2026-11-25 +%A`), so its week begins on the 23rd.
  it('begin on Monday', () => {
    expect([...'345678'].map((day) => mondayOf(`2026-11-2${day}`))).toEqual([...'333333'].map(() => '2026-11-23'))
    expect(mondayOf('2026-11-29')).toBe('2026-11-23')
    expect(mondayOf('2026-11-30')).toBe('2026-11-30')
    expect(mondayOf('1969-12-31')).toBe('1969-12-29')
  })
  it('run on without a gap, and what is long past is gathered in the first', () => {
    const weeks = dueCalendar(['2026-12-08', '2026-09-01', '2026-11-25'], (day) => day, '2026-11-25', 2)
    expect(weeks.map(({ monday, items }) => [monday, items.length])).toEqual([
      ['2026-11-09', 1],
      ['2026-11-16', 0],
      ['2026-11-23', 1],
      ['2026-11-30', 0],
      ['2026-12-07', 1],
    ])
  })
  it('always hold this week', () => {
    expect(dueCalendar([], String, '2026-11-25').map(({ monday }) => monday)).toEqual(['2026-11-23'])
    expect(dueCalendar(['2026-12-09'], String, '2026-11-25')).toHaveLength(3)
  })
})

describe('scales', () => {
  it('of counts end on a round number with few whole ticks', () => {
    expect(plotScale(28)).toEqual({ top: 30, ticks: [0, 10, 20, 30] })
    expect(plotScale(1)).toEqual({ top: 1, ticks: [0, 1] })
    expect(plotScale(4)).toEqual({ top: 4, ticks: [0, 1, 2, 3, 4] })
    expect(plotScale(0).top).toBeGreaterThan(0)
    for (let greatest = 1; greatest < 3000; greatest += 7) {
      const { top, ticks } = plotScale(greatest)
      expect(top).toBeGreaterThanOrEqual(greatest)
      expect(ticks.length).toBeLessThanOrEqual(7)
      expect(ticks.every(Number.isInteger)).toBe(true)
    }
  })
  it('of readings hold the band and every reading', () => {
    const { from, to, ticks } = readingScale([4, 6], [3.1, 5.2])
    expect(from).toBeLessThan(3.1)
    expect(to).toBeGreaterThan(6)
    expect(ticks[0]).toBe(from)
    expect(ticks.at(-1)).toBe(to)
  })
  it('of readings stand even for a single one, or none', () => {
    for (const scale of [readingScale([null, null], [5]), readingScale([null, null], []), readingScale([0, 0], [0])]) {
      expect(scale.to).toBeGreaterThan(scale.from)
    }
  })
})

describe('trials in words', () => {
  it('name every trial', () => expect(formatTrials(['correct', 'incorrect'], 3)).toBe('correct, incorrect, not called'))
})
