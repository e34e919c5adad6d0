import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { longRuns } from '../../../../server/domain/statistics/control/long-runs.ts'
import { pChart } from '../../../../server/domain/statistics/control/p-chart.ts'
import { binomialDensity } from '../../../../server/domain/statistics/numeric/binomial-density.ts'

describe('p-chart', () => {
  const period = fc
    .integer({ min: 0, max: 60 })
    .chain((n) => fc.integer({ min: 0, max: n }).map((count) => ({ label: 'm', count, n })))

  test('limits hold the centre, inside [0, 1], and are narrower where more were tested', () => {
    fc.assert(
      fc.property(fc.array(period, { minLength: 1 }), (periods) => {
        const chart = pChart(periods)
        if (chart.kind === 'no-data') {
          expect(periods.every(({ n }) => n === 0)).toBe(true)
          return
        }
        const points = chart.points.flatMap((point) => (point.kind === 'point' ? [point] : []))
        for (const { low, high, rate, beyond } of points) {
          expect(0 <= low && low <= chart.centre && chart.centre <= high && high <= 1).toBe(true)
          expect(beyond).toBe(rate > high ? 'above' : rate < low ? 'below' : null)
        }
        const bySize = [...points].sort((x, y) => x.n - y.n)
        bySize.slice(1).forEach((point, i) => {
          expect(point.high - point.low).toBeLessThanOrEqual(bySize[i]!.high - bySize[i]!.low + 1e-15)
        })
      }),
    )
  })

  test('of failures is the mirror image of that of passes', () => {
    fc.assert(
      fc.property(fc.array(period, { minLength: 1, maxLength: 12 }), (periods) => {
        const chart = pChart(periods)
        const mirror = pChart(
          periods.map(({ label, count, n }) => ({ label, count: n - count, n })),
          chart.kind === 'chart' ? 1 - chart.centre : undefined,
        )
        if (chart.kind === 'no-data' || mirror.kind === 'no-data') return
        chart.points.forEach((point, i) => {
          const other = mirror.points[i]!
          if (point.kind === 'no-data' || other.kind === 'no-data') return
          expect(other.low).toBeCloseTo(1 - point.high, 12)
        })
      }),
    )
  })

  // The rate of false alarms of "beyond-limit" in a period, summed exactly over all counts at a known centre: nominal
  // 0.27 %.
  test('never gives more false alarms than three sigma should, at any size', () => {
    for (const n of [3, 8, 20, 60, 150])
      for (const centre of [0.03, 0.1, 0.3, 0.5]) {
        let alarms = 0
        for (let count = 0; count <= n; count++) {
          const chart = pChart([{ label: 'm', count, n }], centre)
          const point = chart.kind === 'chart' ? chart.points[0] : null
          if (point?.kind === 'point' && point.signals.length > 0) alarms += binomialDensity(count, n, centre)
        }
        expect(alarms).toBeLessThanOrEqual(0.0027)
      }
  })

  test('a small month past its line is shown as beyond, and is no signal: 4 of 10 at 10 %', () => {
    const chart = pChart([{ label: 'May', count: 4, n: 10 }], 0.1)
    expect(chart).toMatchObject({ points: [{ beyond: 'above', signals: [] }] })
  })

  test('eight in a row on one side signal from the eighth on; a month without tests does not end the run', () => {
    const months = [6, 6, 6, null, 6, 6, 6, 6, 6, 6, 5, 6].map((count, i) =>
      count === null ? { label: `${i}`, count: 0, n: 0 } : { label: `${i}`, count, n: 10 },
    )
    const chart = pChart(months, 0.5)
    if (chart.kind !== 'chart') throw new Error(chart.kind)
    const signalled = chart.points.flatMap((point) =>
      point.kind === 'point' && point.signals.length > 0 ? [point] : [],
    )
    expect(signalled.map(({ label, signals }) => [label, signals])).toEqual([
      ['8', ['run-of-eight']],
      ['9', ['run-of-eight']],
    ])
    expect(chart.points[3]).toEqual({ kind: 'no-data', label: '3' })
  })

  test('no tests at all; nobody ever failed; bad counts', () => {
    expect(pChart([])).toEqual({ kind: 'no-data' })
    expect(pChart([{ label: 'm', count: 0, n: 0 }])).toEqual({ kind: 'no-data' })
    expect(pChart([{ label: 'm', count: 0, n: 9 }])).toMatchObject({
      centre: 0,
      points: [{ low: 0, high: 0, beyond: null, signals: [] }],
    })
    expect(() => pChart([{ label: 'May', count: 3, n: 2 }])).toThrow(/May/)
    expect(() => pChart([{ label: 'May', count: 1, n: 2 }], 1.2)).toThrow(/baseline/)
  })
})

describe('long runs', () => {
  const even = (sides: number[]) => longRuns(sides.map((side) => ({ side, chance: 0.5 })))

  test('a point on the centre ends a run', () => {
    expect(even([1, 1, 1, 1, 1, 1, 1, 0, 1])).toEqual(new Array(9).fill(false))
    expect(even(new Array(9).fill(0))).toEqual(new Array(9).fill(false))
    expect(even([-1, -1, -1, -1, -1, -1, -1, -1, 1])).toEqual([...new Array(7).fill(false), true, false])
  })

  // 0.6¹⁰ = 0.0060 and 0.6¹¹ = 0.0036, on either side of 1/256 = 0.0039.
  test('on the likelier side a run must be longer, on the other it need not be shorter than eight', () => {
    expect(longRuns(new Array(12).fill({ side: -1, chance: 0.6 })).indexOf(true)).toBe(10)
    expect(longRuns(new Array(12).fill({ side: 1, chance: 0.2 })).indexOf(true)).toBe(7)
  })

  // 20 tested at 2 %: no failure has 0.98²⁰ = 0.668; 0.668¹³ = 0.0052 and 0.668¹⁴ = 0.0035.
  test('months without a rare failure are nothing unusual until there are many of them', () => {
    const chart = pChart(
      Array.from({ length: 16 }, (_, i) => ({ label: `${i}`, count: 0, n: 20 })),
      0.02,
    )
    if (chart.kind !== 'chart') throw new Error(chart.kind)
    const signalled = chart.points.map((point) => point.kind === 'point' && point.signals.includes('run-of-eight'))
    expect(signalled.indexOf(true)).toBe(13)
  })

  // 0.3 of 10 is 3, of which neither side counts: below is P(X ≤ 2) = 0.3828, so 0.3828⁸ is rare enough.
  test('a count on the centre belongs to neither side', () => {
    const at = (count: number) =>
      pChart(
        Array.from({ length: 8 }, () => ({ label: 'm', count, n: 10 })),
        0.3,
      )
    const last = (count: number) => {
      const chart = at(count)
      return chart.kind === 'chart' && chart.points.at(-1)
    }
    expect(last(2)).toMatchObject({ signals: ['run-of-eight'] })
    expect(last(3)).toMatchObject({ signals: [] })
    expect(last(4)).toMatchObject({ signals: ['run-of-eight'] })
  })
})
