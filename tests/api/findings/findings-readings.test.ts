import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ReadingFindings } from '../../../server/contract/findings/readings.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeStandard } from '../../support/factories.ts'
import { makeFindingsWorld } from '../../support/findings-world.ts'
import { marks, type SheetInput } from '../../support/sheet-body.ts'

/** A valid sheet whose "halt" has these readings of the tip, from the first trial on. */
const reading = (values: string[], more: { override?: string } = {}): Partial<SheetInput> => {
  const { majors, minors } = marks()
  const readings = values.map((value, i) => ({ trial: i + 1, gauge: 'tip', value, ...more }))
  return { majors, minors: minors!.map((minor) => (minor.code === 'halt' ? { ...minor, readings } : minor)) }
}

describe('readings against their band', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp()
  })
  afterAll(() => test.close())
  const ask = (query: string) => test.office.get<ReadingFindings>(`/api/findings/readings?${query}`)

  it('are counted low, within and high, overridden ones too, and spread over bars', async () => {
    const world = await makeFindingsWorld(test.office)
    const candidate = await world.candidate()
    expect((await ask(`standard=${world.standard}`)).items).toEqual([])
    await world.tested(candidate, '2026-05-01', reading(['4', '4.0', '5.19']))
    await world.tested(candidate, '2026-05-02', reading(['6.00', '5.2']))
    await world.tested(candidate, '2026-05-03', reading(['3.99', '6.01'], { override: 'ground uneven' }))
    await world.tested(candidate, '2026-05-04', reading(['99']))
    const { items, basis } = await ask(`standard=${world.standard}`)
    expect(basis.attempts).toBe(4)
    expect(items).toHaveLength(1)
    const [tip] = items
    // The band of 2 inches has ten bars of 0.2; 4 and 4.0 in the first, 5.19 in 5 to 5.2, 5.2 in the next, 6 in the last.
    expect(tip).toMatchObject({
      measure: 'halt',
      gauge: 'tip',
      versions: [1],
      current: true,
      title: 'Tip height',
      unit: 'in',
      min: '4',
      max: '6',
      target: null,
      readings: 8,
      overridden: 2,
      low: { count: 1, n: 8 },
      within: { count: 5, n: 8, rate: 0.625 },
      high: { count: 2, n: 8 },
    })
    const full = tip!.bars.filter(({ count }) => count > 0)
    expect(full).toEqual([
      { side: 'low', from: '3.8', to: '4', count: 1 },
      { side: 'within', from: '4', to: '4.2', count: 2 },
      { side: 'within', from: '5', to: '5.2', count: 1 },
      { side: 'within', from: '5.2', to: '5.4', count: 1 },
      { side: 'within', from: '5.8', to: '6', count: 1 },
      { side: 'high', from: '6', to: '6.2', count: 1 },
      { side: 'high', from: '8', to: null, count: 1 },
    ])
  })

  it('follow the filters', async () => {
    const world = await makeFindingsWorld(test.office)
    const [one, other] = [await world.candidate(0), await world.candidate(1)]
    await world.tested(one, '2026-05-01', reading(['5']))
    await world.tested(other, '2026-05-02', reading(['5.5', '5.5']))
    const counts = async (query: string) =>
      (await ask(`standard=${world.standard}${query}`)).items.map(({ readings }) => readings)
    expect(await counts('')).toEqual([3])
    expect(await counts(`&unitId=${world.companies[1]}`)).toEqual([2])
    expect(await counts('&to=2026-05-01')).toEqual([1])
    expect(await counts('&arm=rifle')).toEqual([])
    expect(await counts('&attempts=retest')).toEqual([])
  })

  it('of a gauge with one limit keep their side of it', async () => {
    const standard = await makeStandard(test.office, {
      gauges: [{ code: 'tip', title: 'Tip', unit: 'in', max: '6', low: null, high: 'tip-high' }],
    })
    const world = await makeFindingsWorld(test.office, standard)
    const candidate = await world.candidate()
    await world.tested(candidate, '2026-05-01', reading(['6.0', '0.5', '5.96']))
    await world.tested(candidate, '2026-05-02', reading(['6.0001']))
    const [tip] = (await ask(`standard=${standard}`)).items
    expect(tip).toMatchObject({
      min: null,
      max: '6',
      readings: 4,
      low: { count: 0 },
      within: { count: 3 },
      high: { count: 1 },
    })
    const sum = tip!.bars.reduce((total, { count }) => total + count, 0)
    expect(sum).toBe(4)
    expect(tip!.bars.filter(({ side, count }) => side === 'high' && count > 0)).toHaveLength(1)
  })
})
