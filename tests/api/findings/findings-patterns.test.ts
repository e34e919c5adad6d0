import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { PairFindings } from '../../../server/contract/findings/pairs.ts'
import type { QualityFindings } from '../../../server/contract/findings/quality.ts'
import { readCsv } from '../../reference/support/read-csv.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeStandard } from '../../support/factories.ts'
import { type FindingsWorld, makeFindingsWorld } from '../../support/findings-world.ts'
import { marks, STOPPED_MARKS, shortStandard } from '../../support/sheet-body.ts'

const MEASURES = Array.from({ length: 10 }, (_, i) => `X${i + 1}`)
const dayOf = (i: number) => `2026-05-${String(i + 1).padStart(2, '0')}`

describe('what lies in the patterns of marks', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp()
  })
  afterAll(() => test.close())

  const quality = (query: string) => test.office.get<QualityFindings>(`/api/findings/quality?attempts=all&${query}`)
  const pairs = (query: string) => test.office.get<PairFindings>(`/api/findings/pairs?${query}`)

  // K. Wuensch, core.ecu.edu/wuenschk/StatHelp/KR20.txt: 10 students, 10 items; total variance 5.84 and Σpq 2.18 are
  // printed there. Item–rest correlations recomputed with R psych. Each student is an attempt, each item a measure.
  describe('of ten tests of ten measures', () => {
    let world: FindingsWorld
    beforeAll(async () => {
      const standard = await makeStandard(test.office, {
        rule: { trials: 1, needed: 1, percent: '50' },
        majors: [{ code: 'composure', title: 'Composure' }],
        minors: MEASURES.map((code) => ({ code, title: code })),
        gauges: [],
      })
      world = await makeFindingsWorld(test.office, standard)
      const candidate = await world.candidate()
      const major = { code: 'composure', mark: 'GO' as const }
      for (const [i, row] of readCsv('ecu_kr20_10x10.csv').entries()) {
        const minors = MEASURES.map((code) => ({
          code,
          trials: [row[code] === '1' ? ('correct' as const) : ('incorrect' as const)],
        }))
        await world.tested(candidate, dayOf(i), { majors: [major], minors })
      }
      const stopped = { ...major, mark: 'NO-GO' as const, atCall: 1 }
      await world.tested(candidate, dayOf(20), { majors: [stopped], minors: [{ code: 'X1', trials: ['incorrect'] }] })
      await world.tested(candidate, dayOf(21), { majors: [], minors: [], outcomeOnly: 'NO-GO' })
    })

    it('KR-20, difficulty and item–rest correlations are those published', async () => {
      const { items, basis } = await quality(`standard=${world.standard}`)
      expect(basis).toMatchObject({ attempts: 12, stopped: 1, recorded: 1 })
      expect(items).toHaveLength(1)
      const [one] = items
      expect(one).toMatchObject({ versions: [1], current: true, sheets: 10, leftOut: { undecided: 1, recorded: 1 } })
      expect(one!.reliability.value).toBeCloseTo((10 / 9) * (1 - 2.18 / 5.84), 12)
      expect(one!.reliability.value).toBeCloseTo(0.696347032, 9)
      expect(one!.reliability.interval!.low).toBeLessThan(one!.reliability.value!)
      expect(one!.measures.map(({ measure }) => measure)).toEqual(MEASURES)
      const difficulty = one!.measures.map((measure) => measure.difficulty.rate)
      expect(difficulty).toEqual([0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6])
      const itemRest = [0.705889, 0.705889, 0, 0.473589, 0.583874, 0.286147, -0.027445, 0.705889, -0.123613, 0.475867]
      for (const [i, measure] of one!.measures.entries()) expect(measure.itemRest.value).toBeCloseTo(itemRest[i]!, 6)
      const against = one!.measures.filter(({ remarks }) => remarks.includes('works-against-the-rest'))
      expect(against.map(({ measure }) => measure)).toEqual(['X7', 'X9'])
    })

    it('pairs of so few tests are counted and not judged', async () => {
      const { items, falseShare } = await pairs(`standard=${world.standard}`)
      expect([items.length, falseShare]).toEqual([45, 0.05])
      const pair = items.find(({ first, second }) => first === 'X2' && second === 'X5')
      expect(pair).toMatchObject({ n: 10, both: 3, firstOnly: 0, secondOnly: 1, neither: 6 })
      for (const one of items)
        expect(one).toMatchObject({ verdict: 'undefined', reason: 'too-few', p: null, phi: null })
      // The stopped test decided X1 alone, so no pair has it.
      expect(items.every(({ n }) => n === 10)).toBe(true)
    })
  })

  it('measures that never vary are not judged', async () => {
    const world = await makeFindingsWorld(test.office)
    const candidate = await world.candidate()
    for (let i = 0; i < 10; i++) await world.tested(candidate, dayOf(i), i < 5 ? marks('draw', 'halt') : marks())
    const { items } = await pairs(`standard=${world.standard}`)
    expect(items[0]).toMatchObject({ first: 'draw', second: 'halt', both: 5, neither: 5, reason: 'too-few' })
    const never = { verdict: 'undefined', reason: 'one-never-varies', phi: null, p: null, adjustedP: null }
    expect(items.slice(1)).toMatchObject([
      { first: 'draw', second: 'turn', ...never },
      { first: 'halt', second: 'turn', ...never },
    ])
    const [one] = (await quality(`standard=${world.standard}`)).items
    expect(one!.measures[2]).toMatchObject({
      measure: 'turn',
      itemRest: { value: null, reason: 'item-never-varies' },
      // KR-20 is 3/2 (1 − 0.5/1) = 0.75 with it and 1 without.
      remarks: ['everybody-alike', 'reliability-rises-without'],
    })
  })

  it('a standard is analysed by first tests alone, unless asked otherwise', async () => {
    const world = await makeFindingsWorld(test.office)
    const [one, other] = [await world.candidate(), await world.candidate()]
    await world.tested(one, dayOf(0), marks('draw'))
    await world.tested(one, dayOf(1), marks('halt'))
    await world.tested(other, dayOf(2), marks())
    const sheets = async (more: string) =>
      (await test.office.get<QualityFindings>(`/api/findings/quality?standard=${world.standard}${more}`)).items[0]!
        .sheets
    expect([await sheets(''), await sheets('&attempts=renewal'), await sheets('&attempts=all')]).toEqual([2, 1, 3])
  })

  it('of nothing, of one test and of stopped tests alone, nothing is claimed', async () => {
    const world = await makeFindingsWorld(test.office)
    const about = `standard=${world.standard}`
    expect((await pairs(about)).items).toEqual([])
    expect((await quality(about)).items).toEqual([])
    const candidate = await world.candidate()
    await world.tested(candidate, dayOf(0), STOPPED_MARKS)
    const [stopped] = (await quality(about)).items
    expect(stopped).toMatchObject({
      sheets: 0,
      leftOut: { undecided: 1 },
      reliability: { value: null, reason: 'no-data' },
    })
    expect(stopped!.measures[0]!.difficulty).toMatchObject({ n: 0, rate: null, interval: null })
    await world.tested(candidate, dayOf(1), marks('turn'))
    const [one] = (await quality(about)).items
    expect(one).toMatchObject({ sheets: 1, reliability: { value: null, interval: null, reason: 'one-sheet' } })
    expect((await pairs(about)).items.every(({ verdict }) => verdict === 'undefined')).toBe(true)
  })

  it('versions that are not the same test are analysed apart; a pair is pooled where both measures are the same', async () => {
    const world = await makeFindingsWorld(test.office)
    const wider = shortStandard({ code: world.standard, version: 2, effectiveFrom: '2026-05-03' })
    wider.gauges![0]!.max = '7'
    const { id } = await test.office.post('/api/standards', wider)
    await test.office.post(`/api/standards/${id}/publish`, undefined, 200)
    const candidate = await world.candidate()
    await world.tested(candidate, dayOf(0), marks('draw'))
    await world.tested(candidate, dayOf(1), marks('draw', 'turn'))
    await world.tested(candidate, dayOf(2), { ...marks('halt'), standardVersion: 2 })
    const found = await quality(`standard=${world.standard}`)
    expect(found.items).toMatchObject([
      { versions: [1], current: false, sheets: 2 },
      { versions: [2], current: true, sheets: 1 },
    ])
    const { items } = await pairs(`standard=${world.standard}`)
    const brief = items.map(({ first, second, versions, n }) => `${first} ${second} ${versions} ${n}`)
    expect(brief.sort()).toEqual([
      'draw halt 1 2',
      'draw halt 2 1',
      'draw turn 1,2 3',
      'halt turn 1 2',
      'halt turn 2 1',
    ])
  })
})
