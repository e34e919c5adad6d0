import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { MeasureFindings } from '../../../server/contract/findings/findings.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { putSheet } from '../../support/factories.ts'
import { type FindingsWorld, makeFindingsWorld } from '../../support/findings-world.ts'
import { secondPerson } from '../../support/second-person.ts'
import { marks, STOPPED_MARKS, shortStandard, times } from '../../support/sheet-body.ts'

const ZERO = { held: 0, rejected: 0, void: 0, secondGrader: 0, practice: 0 }
const NO_PAGE = { next: null }

describe('failing measures', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp()
  })
  afterAll(() => test.close())

  const ask = (query = '') => test.office.get<MeasureFindings>(`/api/findings/measures${query}`)

  it('of an empty record are none, and say so', async () => {
    const basis = { level: 0.95, attempts: 0, passes: 0, stopped: 0, recorded: 0, notCounted: ZERO }
    expect(await ask()).toEqual({ items: [], majors: [], basis, ...NO_PAGE })
  })

  describe('of a small world', () => {
    let world: FindingsWorld
    const about = (query = '') => ask(`?standard=${world.standard}${query}`)
    const of = (found: MeasureFindings, measure: string) => found.items.find((item) => item.measure === measure)!

    /**
     * By hand. Company A: GO (turn NO-GO), all GO, NO-GO (draw and halt), stopped (draw GO, halt two trials of which the
     * reading makes one incorrect). Company B: GO (turn NO-GO), outcome only. Beside them a void, a held, a rejected, a
     * second grader's and a practice sheet.
     */
    beforeAll(async () => {
      world = await makeFindingsWorld(test.office)
      const [one, two] = [await world.candidate(0), await world.candidate(0)]
      const other = await world.candidate(1)
      await world.tested(one, '2026-01-10')
      await world.tested(one, '2026-02-10', marks())
      await world.tested(two, '2026-02-11', marks('draw', 'halt'))
      const stopped = await world.tested(two, '2026-03-01', STOPPED_MARKS)
      await world.tested(other, '2026-03-31')
      await world.tested(other, '2026-04-01', { majors: [], minors: [], outcomeOnly: 'GO' })
      await world.tested(
        two,
        '2026-03-01',
        { ...marks('draw', 'halt'), secondOf: stopped, graderId: world.graders[1] },
        11,
      )
      await world.tested(one, '2026-03-02', { ...marks(), void: { kind: 'weather' } })
      await world.tested(one, '2026-03-03', { ...marks(), purpose: 'practice' })
      const sheet = {
        standard: world.standard,
        standardVersion: 1,
        arm: 'sword',
        candidateId: one,
        graderId: world.graders[0],
        ...marks(),
      }
      await putSheet(test.office, { ...sheet, ...times('2026-03-04') })
      const rejected = await putSheet(test.office, { ...sheet, ...times('2026-03-05') })
      await (await secondPerson(test)).post(
        `/api/sheets/${rejected.id}/decision`,
        { decision: 'reject', reason: 'Not a test.' },
        200,
      )
    })

    it('count the decided, the marked trials and the faults, and leave out what is no attempt', async () => {
      const found = await about()
      expect(found.basis).toEqual({
        level: 0.95,
        attempts: 6,
        passes: 4,
        stopped: 1,
        recorded: 1,
        notCounted: { held: 1, rejected: 1, void: 1, secondGrader: 1, practice: 1 },
      })
      // draw: 5 tested, 1 NO-GO; of 15 trials two incorrect in the NO-GO and one in each GO.
      expect(of(found, 'draw')).toMatchObject({ tested: 5, noGo: 1, trials: 15, incorrect: 6 })
      // halt: 4 tested, 1 NO-GO, and 2 trials of the stopped one, of which the reading of 6.01 makes one incorrect.
      expect(of(found, 'halt')).toMatchObject({ tested: 4, noGo: 1, trials: 14, incorrect: 6 })
      expect(of(found, 'turn')).toMatchObject({ tested: 4, noGo: 2, trials: 12, incorrect: 6 })
      expect(of(found, 'draw').faults).toEqual([{ code: 'slow', count: 1, ofIncorrect: 1 / 6 }])
      expect(of(found, 'halt').faults).toEqual([{ code: 'tip-high', count: 1, ofIncorrect: 1 / 6 }])
      expect(found.majors).toMatchObject([
        {
          major: 'composure',
          judged: 5,
          noGo: 1,
          faults: [
            { code: 'laughed', count: 1 },
            { code: 'spoke', count: 1 },
          ],
        },
      ])
    })

    it('come from the one failed most often, with intervals and labels', async () => {
      const found = await about()
      expect(found.items.map(({ measure }) => measure)).toEqual(['turn', 'halt', 'draw'])
      // Wilson by hand for 1 of 5, z = 1.959964: (1 + 1.92073 ± 1.959964 √(0.8 + 0.96036)) / 8.84146.
      const { rate } = of(found, 'draw')
      expect(rate).toMatchObject({ count: 1, n: 5, rate: 0.2, few: false })
      expect(rate.interval!.low).toBeCloseTo(0.03622, 5)
      expect(rate.interval!.high).toBeCloseTo(0.62447, 5)
      // Clopper–Pearson for 1 of 5: 1 − 0.975^(1/5) below; above as in any table, 0.71642.
      expect(rate.exact!.low).toBeCloseTo(1 - 0.975 ** 0.2, 10)
      expect(rate.exact!.high).toBeCloseTo(0.71642, 5)
      expect(of(found, 'turn').rate.few).toBe(true)
      expect(of(found, 'turn')).toMatchObject({ versions: [1], current: true, incorrectShare: 0.5 })
    })

    it('say what the stopped test did not reach, and how far the share could move by it', async () => {
      const { items } = await about()
      const notReached = Object.fromEntries(items.map((one) => [one.measure, one.notReached]))
      // NO-GO 1 of 4 and 2 of 4 decided; with the one not reached 1 or 2, and 2 or 3, of 5.
      expect(notReached).toEqual({
        draw: null,
        halt: { count: 1, low: 0.2, high: 0.4 },
        turn: { count: 1, low: 0.4, high: 0.6 },
      })
    })

    it('follow every filter', async () => {
      const counts = async (query: string) => {
        const { basis, items } = await about(query)
        return [
          basis.attempts,
          ...['draw', 'halt', 'turn'].map((code) => items.find(({ measure }) => measure === code)?.tested ?? 0),
        ]
      }
      expect(await counts('&from=2026-02-11')).toEqual([4, 3, 2, 2])
      expect(await counts('&from=2026-02-11&to=2026-03-01')).toEqual([2, 2, 1, 1])
      expect(await counts('&to=2026-01-09')).toEqual([0, 0, 0, 0])
      expect(await counts('&attempts=first')).toEqual([3, 3, 3, 3])
      expect(await counts('&attempts=retest')).toEqual([1, 1, 0, 0])
      // What follows a GO is no first attempt, though it is the first toward the next award.
      expect(await counts('&attempts=renewal')).toEqual([2, 1, 1, 1])
      expect(await counts('&arm=sword')).toEqual([6, 5, 4, 4])
      expect(await counts('&arm=rifle')).toEqual([0, 0, 0, 0])
      expect(await counts(`&unitId=${world.companies[0]}`)).toEqual([4, 4, 3, 3])
      expect(await counts(`&unitId=${world.platoons[1]}&attempts=first`)).toEqual([1, 1, 1, 1])
    })

    it('of a unit stand beside all others, as one family of comparisons', async () => {
      expect((await about()).items.every(({ rest }) => rest === null)).toBe(true)
      expect((await about(`&unitId=${world.battalion}`)).items.every(({ rest }) => rest === null)).toBe(true)
      const found = await about(`&unitId=${world.companies[0]}`)
      // draw 1 of 4 against 0 of 1; halt 1 of 3 against 0 of 1; turn 1 of 3 against 1 of 1. Fisher by hand: 1, 1, 1.
      expect(of(found, 'draw').rest).toMatchObject({
        noGo: 0,
        tested: 1,
        difference: 0.25,
        p: 1,
        adjustedP: 1,
        verdict: 'not-shown',
      })
      expect(of(found, 'turn').rest).toMatchObject({ noGo: 1, tested: 1, p: 1 })
      expect(of(found, 'turn').rest!.difference).toBeCloseTo(-2 / 3, 12)
      expect(found.majors[0]!.rest).toMatchObject({ noGo: 0, tested: 1 })
    })

    it('come in pages', async () => {
      const first = await about('&limit=2')
      expect(first.items.map(({ measure }) => measure)).toEqual(['turn', 'halt'])
      const second = await about(`&limit=2&after=${first.next}`)
      expect([second.items.map(({ measure }) => measure), second.next]).toEqual([['draw'], null])
      const elsewhere = Buffer.from(JSON.stringify(['x', 'y', 1])).toString('base64url')
      await test.office.refused(400, 'GET', `/api/findings/measures?after=${elsewhere}`)
    })

    it('of nothing that is there are refused rather than empty', async () => {
      await test.office.refused(422, 'GET', '/api/findings/measures?standard=nowhere')
      await test.office.refused(422, 'GET', '/api/findings/measures?from=2026-02-02&to=2026-02-01')
      await test.office.refused(404, 'GET', '/api/findings/measures?unitId=00000000-0000-4000-8000-000000000000')
    })
  })

  it('that are never failed have an interval that says how far that may be chance', async () => {
    const world = await makeFindingsWorld(test.office)
    const candidate = await world.candidate()
    for (let day = 1; day <= 20; day++)
      await world.tested(candidate, `2026-05-${String(day).padStart(2, '0')}`, marks())
    const { items } = await ask(`?standard=${world.standard}`)
    // 0 of 20: Wilson 0 to 0.1611 (R. G. Newcombe 1998, Stat. Med. 17:857–872, Table I); exact to 1 − 0.025^(1/20).
    expect(items).toHaveLength(3)
    for (const { rate } of items) {
      expect(rate).toMatchObject({ count: 0, n: 20, rate: 0, few: false, interval: { low: 0 }, exact: { low: 0 } })
      expect(rate.interval!.high).toBeCloseTo(0.1611, 4)
      expect(rate.exact!.high).toBeCloseTo(1 - 0.025 ** (1 / 20), 10)
    }
  })

  it('that always fail', async () => {
    const world = await makeFindingsWorld(test.office)
    const candidate = await world.candidate()
    for (const day of ['2026-05-01', '2026-05-02']) await world.tested(candidate, day, marks('draw', 'halt', 'turn'))
    const { items } = await ask(`?standard=${world.standard}`)
    for (const { rate } of items)
      expect(rate).toMatchObject({ count: 2, n: 2, rate: 1, few: true, interval: { high: 1 } })
  })

  it('are pooled over versions only where the measure did not change', async () => {
    const world = await makeFindingsWorld(test.office)
    const wider = shortStandard({ code: world.standard, version: 2, effectiveFrom: '2026-03-01' })
    wider.gauges![0]!.max = '7'
    const { id } = await test.office.post('/api/standards', wider)
    await test.office.post(`/api/standards/${id}/publish`, undefined, 200)
    const candidate = await world.candidate()
    await world.tested(candidate, '2026-02-01', marks('draw', 'halt'))
    await world.tested(candidate, '2026-03-01', { ...marks('halt'), standardVersion: 2 })
    await world.tested(candidate, '2026-03-02', { ...marks(), standardVersion: 2 })
    const { items } = await ask(`?standard=${world.standard}`)
    const brief = items.map(({ measure, versions, current, tested, noGo }) => [
      measure,
      versions,
      current,
      `${noGo}/${tested}`,
    ])
    expect(brief).toHaveLength(4)
    expect(brief).toContainEqual(['draw', [1, 2], true, '1/3'])
    expect(brief).toContainEqual(['turn', [1, 2], true, '0/3'])
    expect(brief).toContainEqual(['halt', [1], false, '1/1'])
    expect(brief).toContainEqual(['halt', [2], true, '1/2'])
  })
})
