import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { aalenJohansen, halfTime, type IncidencePoint } from '../../server/domain/statistics/survival/aalen-johansen.ts'
import { kaplanMeier } from './support/kaplan-meier.ts'
import { readCsv } from './support/read-csv.ts'

const at = (points: readonly IncidencePoint[], time: number) => points.findLast((point) => point.time <= time)!

// R. A. Kyle et al. (2002), NEJM 346:564–569; R survival's mgus2: months, 1 progression, 2 death. Recomputed with R survival.
test('monoclonal gammopathy: progression, with death as the competing event', () => {
  const points = aalenJohansen(
    readCsv('mgus2_competing.csv').map(({ months, event }) => ({
      time: Number(months),
      events: Number(event === '1'),
      competing: Number(event === '2'),
      censored: Number(event === '0'),
    })),
  )
  const expected = [
    [12, 0.0094, 0.122, 0.8684],
    [60, 0.0341, 0.32, 0.6455],
    [120, 0.0637, 0.532, 0.4045],
    [240, 0.0998, 0.724, 0.1762],
    [360, 0.134, 0.784, 0.0818],
  ] as const
  for (const [months, progression, death, neither] of expected) {
    const { incidence, competingIncidence, interval } = at(points, months)
    expect(Math.abs(incidence - progression)).toBeLessThan(0.00005)
    expect(Math.abs(competingIncidence - death)).toBeLessThan(0.0005)
    expect(Math.abs(1 - incidence - competingIncidence - neither)).toBeLessThan(0.00005)
    expect(interval!.low).toBeLessThan(incidence)
    expect(interval!.high).toBeGreaterThan(incidence)
  }
})

const tallies = fc.array(
  fc.record({
    time: fc.integer({ min: 0, max: 40 }),
    events: fc.integer({ min: 0, max: 3 }),
    competing: fc.integer({ min: 0, max: 2 }),
    censored: fc.integer({ min: 0, max: 3 }),
  }),
  { minLength: 1, maxLength: 25 },
)

describe('the cumulative incidence', () => {
  test('without a competing event is one less Kaplan and Meier’s curve, with Greenwood’s interval', () => {
    fc.assert(
      fc.property(tallies, (some) => {
        const alone = some.map((one) => ({ ...one, competing: 0 }))
        const curve = kaplanMeier(alone, 'log-log')
        const points = aalenJohansen(alone)
        if (curve.kind === 'no-data') {
          expect(points).toEqual([])
          return
        }
        curve.points.forEach(({ time, survival, interval }, i) => {
          expect(points[i]!.time).toBe(time)
          expect(points[i]!.incidence).toBeCloseTo(1 - survival, 9)
          const own = points[i]!.interval
          if (own && interval && survival < 1) {
            expect(own.low).toBeCloseTo(1 - interval.high, 7)
            expect(own.high).toBeCloseTo(1 - interval.low, 7)
          }
        })
      }),
    )
  })

  test('of both events adds up with those without either, and never falls', () => {
    fc.assert(
      fc.property(tallies, (some) => {
        const points = aalenJohansen(some)
        const turned = aalenJohansen(
          some.map(({ events, competing, ...one }) => ({ ...one, events: competing, competing: events })),
        )
        const together = kaplanMeier(
          some.map(({ time, events, competing, censored }) => ({ time, events: events + competing, censored })),
        )
        points.forEach((point, i) => {
          expect(point.competingIncidence).toBeCloseTo(turned[i]!.incidence, 9)
          if (together.kind === 'curve')
            expect(1 - point.incidence - point.competingIncidence).toBeCloseTo(together.points[i]!.survival, 9)
          expect(point.incidence).toBeGreaterThanOrEqual(points[i - 1]?.incidence ?? 0)
        })
      }),
    )
  })

  test('without censoring is the share of all, with a binomial variance', () => {
    // 3 of 12 certified by day 5, 4 left by then: F = 1/4 and its variance 1/4 · 3/4 / 12.
    const points = aalenJohansen([
      { time: 1, events: 1, competing: 2, censored: 0 },
      { time: 5, events: 2, competing: 2, censored: 0 },
      { time: 9, events: 5, competing: 0, censored: 0 },
    ])
    const { incidence, interval } = points[1]!
    expect(incidence).toBeCloseTo(0.25, 12)
    const power = Math.exp((1.959963984540054 * Math.sqrt(0.1875 / 12)) / (0.75 * Math.log(0.75)))
    expect(interval!.low).toBeCloseTo(1 - 0.75 ** power, 9)
    expect(points.at(-1)!.incidence).toBeCloseTo(8 / 12, 12)
    expect(halfTime(points)).toMatchObject({ median: 9, low: 5 })
  })
})
