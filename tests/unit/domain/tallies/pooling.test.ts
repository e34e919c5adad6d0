import { describe, expect, test } from 'vitest'
import { responseSums } from '../../../../server/domain/statistics/test-theory/response-sums.ts'
import { inMonths } from '../../../../server/domain/tallies/in-months.ts'
import { poolMeasures } from '../../../../server/domain/tallies/pool-measures.ts'
import { poolPairs } from '../../../../server/domain/tallies/pool-pairs.ts'
import { poolRatings } from '../../../../server/domain/tallies/pool-ratings.ts'
import { poolReadings } from '../../../../server/domain/tallies/pool-readings.ts'
import { poolResponses } from '../../../../server/domain/tallies/pool-responses.ts'
import { readingCounters, tallyLayout } from '../../../../server/domain/tallies/tally-layout.ts'
import { trendSeries } from '../../../../server/domain/tallies/trend-series.ts'
import { DEFINITION, version } from './given.ts'

const wider = (old: typeof DEFINITION) => ({
  ...old,
  gauges: old.gauges.map((gauge) => (gauge.code === 'tip' ? { ...gauge, max: '7' } : gauge)),
})
const first = version(1)
/** Another band of "tip", so other measures "draw" and "halt". */
const second = version(2, wider)
/** The same measures as in the first, in another order. */
const turned = version(3, (old) => ({ ...old, minors: [...old.minors].reverse() }))

/** Counters of uniform, composure, draw, turn, halt. */
const counters = (...tested: [number, number][]) => tested.flatMap(([n, noGo]) => [n, noGo, 3 * n, 2 * noGo])

describe('pooling measures', () => {
  const five = counters([10, 0], [10, 1], [9, 3], [9, 2], [8, 4])
  const faults = [0, 1, 0, 2, 3, 2, 4]

  test('adds up versions only where the measure is the same', () => {
    const rows = poolMeasures([
      { of: first, measures: five, faults },
      { of: second, measures: five, faults },
    ])
    const draws = rows.filter(({ measure }) => measure === 'draw')
    expect(draws.map(({ versions, isCurrent, tested, noGo }) => ({ versions, isCurrent, tested, noGo }))).toEqual([
      { versions: [1], isCurrent: false, tested: 9, noGo: 3 },
      { versions: [2], isCurrent: true, tested: 9, noGo: 3 },
    ])
    expect(rows.find(({ measure }) => measure === 'turn')).toMatchObject({
      versions: [1, 2],
      tested: 18,
      noGo: 4,
      trials: 54,
      incorrect: 8,
      faults: [{ code: 'slow', count: 4 }],
    })
    expect(rows.find(({ measure }) => measure === 'turn')!.notReached).toBe(0)
    expect(rows.find(({ measure }) => measure === 'composure')).toMatchObject({
      major: true,
      tested: 20,
      noGo: 2,
      faults: [{ code: 'spoke', count: 2 }],
    })
  })

  test('tells what was not reached of the tests with marks', () => {
    const [turn] = poolMeasures([
      { of: first, marked: 12, measures: five, faults },
      { of: turned, marked: 10, measures: five, faults },
    ]).filter(({ measure }) => measure === 'turn')
    // Turn has another place in the third version, with 9 decided in both.
    expect(turn).toMatchObject({ versions: [1, 3], tested: 18, notReached: 4 })
  })

  test('leaves out what has no trial, and keeps what was tried but never decided', () => {
    const rows = poolMeasures([{ of: first, measures: [...counters([0, 0], [0, 0], [0, 0]), 0, 0, 2, 1, 0, 0, 0, 0] }])
    expect(rows.map(({ measure, tested, trials, incorrect }) => [measure, tested, trials, incorrect])).toEqual([
      ['turn', 0, 2, 1],
    ])
  })
})

describe('pooling by month', () => {
  test('a measure that changed has two series, the whole test one', () => {
    const month = (of: typeof first, name: string) => ({
      of,
      month: name,
      attempts: 10,
      passes: 7,
      measures: counters([10, 0], [10, 0], [10, 2], [10, 1], [10, 0]),
    })
    const series = trendSeries([month(first, '2026-01'), month(first, '2026-02'), month(second, '2026-02')])
    const brief = series.map(({ measure, versions, byMonth }) => [
      measure,
      versions,
      [...byMonth.values()].map(({ count, n }) => `${count}/${n}`),
    ])
    expect(brief).toContainEqual([null, [1, 2], ['3/10', '6/20']])
    expect(brief).toContainEqual(['draw', [1], ['2/10', '2/10']])
    expect(brief).toContainEqual(['draw', [2], ['0/0', '2/10']])
    expect(brief).toContainEqual(['turn', [1, 2], ['1/10', '2/20']])
  })

  test('years are taken as their months', () => {
    const periods = inMonths([
      { grain: 'month', first: '2024-11-01', last: '2024-12-01' },
      { grain: 'year', first: '2025-01-01', last: '2026-01-01' },
      { grain: 'day', first: '2027-01-01', last: '2027-01-04' },
    ])
    expect(periods[1]).toEqual({ grain: 'month', first: '2025-01-01', last: '2026-12-01' })
    expect([periods[0]!.grain, periods[2]!.grain]).toEqual(['month', 'day'])
  })
})

describe('pooling readings', () => {
  test('by measure and gauge, by value, with the overridden ones', () => {
    const layout = tallyLayout(DEFINITION)
    const readings = new Array<number>(readingCounters(layout)).fill(0)
    const [tip] = layout.gauges.filter(({ measure, gauge }) => measure === 'draw' && gauge === 'tip')
    readings[tip!.start] = 1
    readings[tip!.start + 1 + tip!.grid.placeOf('5.1')] = 4
    readings[tip!.start + 1 + tip!.grid.placeOf('6.5')] = 2
    const empty = readings.map(() => 0)
    const pooled = poolReadings([
      { of: first, readings },
      { of: turned, readings: [...empty.slice(0, -readings.length), ...turnedReadings()] },
    ])
    expect(pooled).toEqual([
      {
        standard: 'standing',
        measure: 'draw',
        major: false,
        versions: [1, 3],
        isCurrent: true,
        gauge: 'tip',
        definedIn: 3,
        overridden: 1,
        readings: [
          { value: '5', count: 5 },
          { value: '6.6', count: 2 },
        ],
      },
    ])
  })

  /** One reading of 5.0 under the version that has "draw" last. */
  function turnedReadings(): number[] {
    const layout = tallyLayout(turned.definition)
    const readings = new Array<number>(readingCounters(layout)).fill(0)
    const place = layout.gauges.find(({ measure, gauge }) => measure === 'draw' && gauge === 'tip')!
    readings[place.start + 1 + place.grid.placeOf('5.0')] = 1
    return readings
  }
})

describe('pooling pairs', () => {
  // By hand, of draw and halt in version 1: GGNGN both, GGNGG first only, GGGGG neither, GGN-- decides only draw.
  const patterns = [
    { of: first, marks: 'GGNGN', sheets: 3 },
    { of: first, marks: 'GGNGG', sheets: 2 },
    { of: first, marks: 'GGGGG', sheets: 5 },
    { of: first, marks: 'GNN--', sheets: 7 },
    { of: first, marks: '', sheets: 11 },
  ]
  const pair = (rows: Parameters<typeof poolPairs>[0], one: string, other: string) =>
    poolPairs(rows)
      .get('standing')!
      .filter((each) => each.first === one && each.second === other)

  test('counts the sheets that decided both', () => {
    expect(pair(patterns, 'draw', 'halt')).toMatchObject([
      { counts: { both: 3, firstOnly: 2, secondOnly: 0, neither: 5 }, versions: [1], isCurrent: true },
    ])
    expect(pair(patterns, 'draw', 'turn')).toMatchObject([
      { counts: { both: 0, firstOnly: 5, secondOnly: 0, neither: 5 } },
    ])
  })

  test('pools versions where neither changed, in whatever order they list the two', () => {
    // Reversed: halt, turn, draw; so NGG is halt NO-GO alone.
    const rows = [...patterns, { of: turned, marks: 'GGNGG', sheets: 4 }, { of: second, marks: 'GGNGN', sheets: 100 }]
    expect(pair(rows, 'draw', 'halt')).toMatchObject([
      { counts: { both: 3, firstOnly: 2, secondOnly: 4, neither: 5 }, versions: [1, 3], isCurrent: true },
      { counts: { both: 100, firstOnly: 0, secondOnly: 0, neither: 0 }, versions: [2], isCurrent: false },
    ])
  })
})

describe('pooling answers for item analysis', () => {
  const patterns = [
    { of: first, marks: 'GGNGG', sheets: 2 },
    { of: first, marks: 'GGGGG', sheets: 1 },
    { of: first, marks: 'GNGG-', sheets: 4 },
    { of: first, marks: '', sheets: 3 },
    { of: turned, marks: 'GGNGG', sheets: 5 },
    { of: second, marks: 'GGGGG', sheets: 6 },
  ]

  test('puts versions that are one test together, and says what is left out', () => {
    const [one, other] = poolResponses(patterns)
    expect(one).toMatchObject({
      versions: [1, 3],
      isCurrent: true,
      measures: ['draw', 'turn', 'halt'],
      undecided: 4,
      recorded: 3,
    })
    // draw GO on 1 + 5 (halt was NO-GO there), turn on all 8, halt on 2 + 1.
    expect(responseSums(one!.complete)).toEqual({
      sheets: 8,
      together: [
        [6, 6, 1],
        [6, 8, 3],
        [1, 3, 3],
      ],
    })
    expect(other).toMatchObject({ versions: [2], isCurrent: false })
    expect(responseSums(other!.complete).sheets).toBe(6)
  })

  test('where no sheet decided everything, there are no answers', () => {
    const [one] = poolResponses([{ of: first, marks: 'NG---', sheets: 2 }])
    expect(one).toMatchObject({
      undecided: 2,
      recorded: 0,
      complete: [{ marks: [0, 0, 0], count: 0 }],
    })
  })
})

describe('pooling ratings', () => {
  test('by measure: first beside second grader, and all graders', () => {
    const sheet = (marks: string, outcome: 'GO' | 'NO-GO', of = first) => ({ of, marks, outcome })
    const ratings = poolRatings([
      { ...sheet('GGNGG', 'GO'), attempts: 3, others: [sheet('GGGGG', 'GO')] },
      { ...sheet('GGNGG', 'GO'), attempts: 1, others: [sheet('GGNGN', 'NO-GO'), sheet('GGNGG', 'GO')] },
      { ...sheet('-N---', 'NO-GO'), attempts: 2, others: [sheet('GNN--', 'NO-GO')] },
      { ...sheet('GGGGG', 'GO'), attempts: 5, others: [sheet('GGGGG', 'GO', second)] },
    ])
    const of = (measure: string | null) => ratings.filter((one) => one.measure === measure)
    expect(of(null)).toMatchObject([
      {
        table: [
          [8, 1],
          [0, 2],
        ],
        versions: [1, 2],
      },
    ])
    // The five under the other band cannot be compared on draw, but on turn.
    expect(of('draw')).toMatchObject([
      {
        table: [
          [0, 0],
          [3, 1],
        ],
        versions: [1],
        rated: [
          { ratings: [1, 1], sheets: 3 },
          { ratings: [0, 3], sheets: 1 },
        ],
      },
    ])
    expect(of('turn')).toMatchObject([
      {
        table: [
          [9, 0],
          [0, 0],
        ],
        versions: [1, 2],
      },
    ])
    expect(of('composure')).toMatchObject([
      {
        major: true,
        table: [
          [9, 0],
          [0, 2],
        ],
      },
    ])
    expect(of('uniform')).toMatchObject([
      {
        table: [
          [9, 0],
          [0, 0],
        ],
      },
    ])
  })
})
