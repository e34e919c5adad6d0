import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { TrendFindings } from '../../../server/contract/findings/trend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { type FindingsWorld, makeFindingsWorld } from '../../support/findings-world.ts'
import { marks, NO_GO_MARKS } from '../../support/sheet-body.ts'

describe('the trend by month', () => {
  let test: TestApp
  let world: FindingsWorld
  beforeAll(async () => {
    test = await buildTestApp()
    world = await makeFindingsWorld(test.office)
  })
  afterAll(() => test.close())
  const ask = (query = '') => test.office.get<TrendFindings>(`/api/findings/trend?standard=${world.standard}${query}`)
  const of = ({ series }: TrendFindings, measure: string | null) => series.find((one) => one.measure === measure)!

  it('of an empty record has no months', async () => {
    expect(await ask()).toMatchObject({ months: [], series: [], judgedMonths: 0, basis: { attempts: 0 } })
  })

  describe('of a few months', () => {
    /** December: 2 tests, draw NO-GO in none. January: none. February: 3 tests, draw and halt NO-GO in all. */
    beforeAll(async () => {
      const candidate = await world.candidate()
      for (const day of ['2025-12-01', '2025-12-31']) await world.tested(candidate, day, marks())
      for (const day of ['2026-02-10', '2026-02-11', '2026-02-28']) await world.tested(candidate, day, NO_GO_MARKS)
    })

    it('months without tests are shown, up to the last one asked about', async () => {
      const found = await ask('&to=2026-03-31')
      expect(found.months).toEqual(['2025-12', '2026-01', '2026-02', '2026-03'])
      expect((await ask()).months.at(-1)).toBe('2026-06')
      const draw = of(found, 'draw')
      expect(draw).toMatchObject({ major: false, versions: [1], current: true, count: 3, n: 5, centre: 0.6 })
      expect(draw.points.map(({ month, count, n, rate }) => [month, count, n, rate])).toEqual([
        ['2025-12', 0, 2, 0],
        ['2026-01', 0, 0, null],
        ['2026-02', 3, 3, 1],
        ['2026-03', 0, 0, null],
      ])
      // Limits by hand: 0.6 ± 3 √(0.24/3) reach past 0 and 1. By chance, 3 of 3 at 0.6 comes about with 0.6³.
      expect(draw.points[2]).toMatchObject({ low: 0, high: 1, beyond: null, signals: [] })
      expect(draw.points[2]!.chance).toBeCloseTo(0.216, 12)
      expect(draw.points[1]).toMatchObject({ low: null, high: null, chance: null, signals: [] })
    })

    it('the whole test has a series of its own, and a measure can be asked for alone', async () => {
      const found = await ask('&to=2026-03-31')
      expect(of(found, null)).toMatchObject({ count: 3, n: 5 })
      expect(found.series.map(({ measure }) => measure)).toEqual([null, 'composure', 'draw', 'halt', 'turn'])
      expect(found.judgedMonths).toBe(10)
      const alone = await ask('&measure=halt')
      expect(alone.series.map(({ measure }) => measure)).toEqual(['halt'])
    })

    it('a period that begins or ends within a month counts only its days', async () => {
      const found = await ask('&from=2025-12-02&to=2026-02-10')
      expect(found.months).toEqual(['2025-12', '2026-01', '2026-02'])
      expect(of(found, 'draw').points.map(({ n }) => n)).toEqual([1, 0, 1])
    })
  })

  it('a month far from the others is called unusual, and only that', async () => {
    const unusual = await makeFindingsWorld(test.office)
    const candidate = await unusual.candidate()
    // Five months of 4 tests, all GO; then one of 4, all NO-GO on draw and halt.
    for (const month of ['01', '02', '03', '04', '05', '06']) {
      for (const day of ['01', '02', '03', '04']) {
        await unusual.tested(candidate, `2026-${month}-${day}`, month === '06' ? NO_GO_MARKS : marks())
      }
    }
    const found = await test.office.get<TrendFindings>(`/api/findings/trend?standard=${unusual.standard}&measure=draw`)
    const { points, centre } = found.series[0]!
    expect(centre).toBeCloseTo(1 / 6, 12)
    expect(points.map(({ signals }) => signals)).toEqual([[], [], [], [], [], ['beyond-limit']])
    // Upper limit 1/6 + 3 √(5/36/4) = 0.7257; 4 of 4 at 1/6 has (1/6)⁴ = 0.00077, below 0.00135.
    expect(points.at(-1)!.high).toBeCloseTo(1 / 6 + 3 * Math.sqrt(5 / 144), 12)
    expect(points.at(-1)!.chance).toBeCloseTo(1 / 1296, 12)
  })
})
