import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { kaplanMeier } from '../../../../server/domain/statistics/survival/kaplan-meier.ts'
import { logRank } from '../../../../server/domain/statistics/survival/log-rank.ts'
import { medianTime } from '../../../../server/domain/statistics/survival/median-time.ts'
import { riskTable, type TimeTally } from '../../../../server/domain/statistics/survival/time-tally.ts'

const tally = fc.record({
  time: fc.integer({ min: 0, max: 25 }),
  events: fc.integer({ min: 0, max: 3 }),
  censored: fc.integer({ min: 0, max: 3 }),
})
const tallies = fc.array(tally, { minLength: 1, maxLength: 25 })
const transformation = fc.constantFrom('log' as const, 'log-log' as const)

function curve(list: TimeTally[], transform: 'log' | 'log-log' = 'log') {
  const result = kaplanMeier(list, transform)
  return result.kind === 'curve' ? result : null
}

describe('Kaplan–Meier', () => {
  test('starts below 1 and never rises; its limits hold it, inside [0, 1]', () => {
    fc.assert(
      fc.property(tallies, transformation, (list, transform) => {
        let before = 1
        for (const { survival, interval, events } of curve(list, transform)?.points ?? []) {
          expect(survival >= 0 && (events === 0 ? survival === before : survival < before)).toBe(true)
          before = survival
          if (interval)
            expect(
              0 <= interval.low && interval.low <= survival && survival <= interval.high && interval.high <= 1,
            ).toBe(true)
          else expect(survival).toBe(0)
        }
      }),
    )
  })

  test('does not depend on the order of the tallies, nor on how people are tallied', () => {
    fc.assert(
      fc.property(tallies, (list) => {
        const one = list.flatMap(({ time, events, censored }) => [
          ...Array.from({ length: censored }, () => ({ time, events: 0, censored: 1 })),
          ...Array.from({ length: events }, () => ({ time, events: 1, censored: 0 })),
        ])
        expect(kaplanMeier(one.reverse())).toEqual(kaplanMeier(list))
      }),
    )
  })

  test('without censoring it is the plain share still waiting, with its binomial standard error', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 1, maxLength: 60 }), (times) => {
        for (const { time, survival, standardError } of curve(times.map((t) => ({ time: t, events: 1, censored: 0 })))!
          .points) {
          const share = times.filter((t) => t > time).length / times.length
          expect(survival).toBeCloseTo(share, 12)
          if (share > 0) expect(standardError).toBeCloseTo(Math.sqrt((share * (1 - share)) / times.length), 12)
        }
      }),
    )
  })

  test('everybody is counted once', () => {
    fc.assert(
      fc.property(tallies, (list) => {
        const result = curve(list)
        const people = list.reduce((sum, { events, censored }) => sum + events + censored, 0)
        expect((result?.subjects ?? 0) - people).toBe(0)
        expect((result?.events ?? 0) + (result?.censored ?? 0)).toBe(people)
        const rows = riskTable(list)
        rows.forEach(({ atRisk, events, censored }, i) => {
          expect(rows[i + 1]?.atRisk ?? 0).toBe(atRisk - events - censored)
        })
      }),
    )
  })

  test('nobody, and times that are none', () => {
    expect(kaplanMeier([])).toEqual({ kind: 'no-data' })
    expect(kaplanMeier([{ time: 3, events: 0, censored: 0 }])).toEqual({ kind: 'no-data' })
    expect(() => kaplanMeier([{ time: -1, events: 1, censored: 0 }])).toThrow(/time/)
    expect(() => kaplanMeier([{ time: Number.NaN, events: 1, censored: 0 }])).toThrow(/time/)
    expect(() => kaplanMeier([{ time: 1, events: 0.5, censored: 0 }])).toThrow(/events/)
  })
})

describe('median time', () => {
  test('lies in its interval', () => {
    fc.assert(
      fc.property(tallies, transformation, (list, transform) => {
        const median = medianTime(kaplanMeier(list, transform))
        if (median.kind === 'no-data') return
        if (median.median !== null)
          expect(median.low! <= median.median && median.median <= (median.high ?? Infinity)).toBe(true)
        else expect(median.high).toBeNull()
      }),
    )
  })

  test('is the first time by which half are through, exactly half counted; not reached when fewer are', () => {
    const half = [1, 2, 3, 4].map((time) => ({ time, events: 1, censored: 0 }))
    expect(medianTime(kaplanMeier(half))).toMatchObject({ kind: 'reached', median: 2 })
    const few = [
      { time: 5, events: 1, censored: 0 },
      { time: 9, events: 0, censored: 6 },
    ]
    expect(medianTime(kaplanMeier(few))).toMatchObject({ kind: 'not-reached', median: null, high: null })
    expect(medianTime(kaplanMeier([]))).toEqual({ kind: 'no-data' })
  })

  // (9/10)(8/9)…(5/6) is one half, but not in binary.
  test('is not missed by rounding', () => {
    const tens = Array.from({ length: 10 }, (_, i) => ({ time: i + 1, events: 1, censored: 0 }))
    expect(medianTime(kaplanMeier(tens))).toMatchObject({ median: 5 })
  })
})

describe('log-rank', () => {
  const groups = fc
    .array(tallies, { minLength: 2, maxLength: 4 })
    .map((lists) => lists.map((list, i) => ({ key: `${i}`, tallies: list })))

  test('observed and expected events add up to the same; the order of groups does not matter', () => {
    fc.assert(
      fc.property(groups, (list) => {
        const result = logRank(list)
        const sum = (key: 'observed' | 'expected') => result.groups.reduce((total, group) => total + group[key], 0)
        expect(sum('expected')).toBeCloseTo(sum('observed'), 9)
        const reversed = logRank([...list].reverse())
        expect(reversed.kind).toBe(result.kind)
        if (result.kind !== 'compared' || reversed.kind !== 'compared') return
        expect(result.p >= 0 && result.p <= 1).toBe(true)
        expect(reversed.chiSquare).toBeCloseTo(result.chiSquare, 6)
        expect(reversed.degreesOfFreedom).toBe(result.degreesOfFreedom)
      }),
    )
  })

  test('is 0 between a group and its copy', () => {
    fc.assert(
      fc.property(tallies, (list) => {
        const result = logRank([
          { key: 'a', tallies: list },
          { key: 'b', tallies: list },
        ])
        if (result.kind === 'compared') expect(result.chiSquare).toBeCloseTo(0, 12)
      }),
    )
  })

  test('a group that left before anybody was certified is listed, and does not change the comparison', () => {
    const at = (time: number, events: number, censored = 0) => ({ time, events, censored })
    const a = { key: 'A', tallies: [at(3, 1), at(5, 1), at(9, 0, 2)] }
    const b = { key: 'B', tallies: [at(2, 2), at(4, 1), at(9, 1)] }
    const gone = { key: 'C', tallies: [at(1, 0, 4)] }
    const [without, beside] = [logRank([a, b]), logRank([gone, a, b])]
    if (without.kind !== 'compared' || beside.kind !== 'compared') throw new Error('not compared')
    expect(beside.chiSquare).toBeCloseTo(without.chiSquare, 12)
    expect(beside.degreesOfFreedom).toBe(1)
    expect(beside.groups[0]).toEqual({ key: 'C', subjects: 4, observed: 0, expected: 0, compared: false })
  })

  test('nothing to compare says why', () => {
    const waiting = { key: 'A', tallies: [{ time: 5, events: 0, censored: 3 }] }
    const done = { key: 'B', tallies: [{ time: 5, events: 3, censored: 0 }] }
    expect(logRank([waiting, { ...waiting, key: 'B' }])).toMatchObject({ kind: 'not-compared', reason: 'no-events' })
    expect(logRank([done])).toMatchObject({ kind: 'not-compared', reason: 'fewer-than-two-groups' })
    expect(logRank([done, { ...done, key: 'C' }])).toMatchObject({
      kind: 'not-compared',
      reason: 'fewer-than-two-groups',
    })
    expect(logRank([])).toMatchObject({ kind: 'not-compared', reason: 'no-events' })
  })
})
