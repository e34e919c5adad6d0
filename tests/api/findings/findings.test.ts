import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { MeasureFindings, SponsorFindings } from '../../../server/contract/findings/findings.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeGround, makeSoldier, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { marks, NO_GO_MARKS, outcomeOnly, STOPPED_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting

/**
 * 2 March, first, sword: "turn" NO-GO (GO). 3 March, retest, sword: "draw" and "halt" NO-GO. 1 April, retest, rifle:
 * stopped after five calls. The rest must not be counted: void, second, practice, outcome only, held.
 */
beforeAll(async () => {
  test = await buildTestApp()
  const { office } = test
  setting = await makeTestSetting(office, await makeGround(office, { waitDays: 0, validityMonths: 1 }))
  await office.post(`/api/soldiers/${setting.candidateId}/withdrawals`, {
    certification: setting.certification,
    on: '2026-01-01',
    reason: 'To begin anew',
  })
  const first = await putSheet(office, setting.sheet({ ...times('2026-03-01'), ...NO_GO_MARKS }))
  await putSheet(office, setting.sheet({ ...times('2026-03-02'), ...marks('draw', 'halt', 'turn') }))
  await putSheet(office, setting.sheet({ ...times('2026-04-01'), ...STOPPED_MARKS, arm: 'rifle' }))
  const others = [
    setting.sheet({ ...times('2026-03-05'), void: { kind: 'weather' } }),
    setting.sheet({ ...times('2026-03-01'), secondOf: first.id }),
    setting.sheet({ ...times('2026-03-06'), purpose: 'practice' }),
    setting.sheet({ ...times('2026-03-07'), sponsorId: null }),
  ]
  for (const sheet of others) await putSheet(office, sheet)
})
afterAll(() => test.close())

const found = async (query: string) => {
  const answer = await test.office.get<MeasureFindings>(`/api/findings/measures?unitId=${setting.unitId}&${query}`)
  const faults = (list: readonly { code: string; count: number }[]) => list.map(({ code, count }) => `${code} ${count}`)
  return Object.fromEntries([
    ...answer.items.map((one) => [
      one.measure,
      [one.tested, one.noGo, one.trials, one.incorrect, ...faults(one.faults)],
    ]),
    ...answer.majors.map((one) => [one.major, [one.judged, one.noGo, ...faults(one.faults)]]),
  ])
}

describe('failing measures', () => {
  it('count decided measures, marked trials and faults of counted test sheets', async () => {
    // By hand from the three sheets: tested, NO-GO, trials, incorrect. "halt" has a trial made incorrect by its gauge.
    expect(await found('')).toEqual({
      draw: [3, 2, 9, 5, 'slow 1'],
      halt: [2, 2, 8, 5, 'tip-high 1'],
      turn: [2, 1, 6, 3],
      composure: [3, 1, 'laughed 1', 'spoke 1'],
    })
  })

  it('are those of a time, an arm, a standard, first attempts or retests', async () => {
    const onlyFirst = { draw: [1, 1, 3, 2], halt: [1, 1, 3, 2], turn: [1, 0, 3, 1], composure: [1, 0] }
    expect(await found('attempts=first')).toEqual(onlyFirst)
    expect(await found('to=2026-03-01')).toEqual(onlyFirst)
    expect(Object.keys(await found('attempts=retest'))).toHaveLength(4)
    expect(await found('from=2026-03-02&to=2026-03-31')).toEqual({
      draw: [1, 1, 3, 2],
      halt: [1, 1, 3, 2],
      turn: [1, 1, 3, 2],
      composure: [1, 0],
    })
    expect(await found('arm=rifle')).toEqual(await found('from=2026-04-01'))
    expect(await found('from=2026-04-01')).toMatchObject({
      draw: [1, 0, 3, 1, 'slow 1'],
      halt: [0, 0, 2, 1, 'tip-high 1'],
    })
    expect(await found('arm=saber')).toEqual({})
    expect(await found('from=2026-04-02')).toEqual({})
    expect(await found(`standard=${setting.standard}`)).toEqual(await found(''))
    await test.office.refused(422, 'GET', '/api/findings/measures?standard=another')
  })

  it('name the standard of each, and come with paging like any list', async () => {
    const answer = await test.office.get<MeasureFindings>(`/api/findings/measures?unitId=${setting.unitId}`)
    expect(answer.next).toBeNull()
    for (const one of [...answer.items, ...answer.majors]) expect(one.standard).toBe(setting.standard)
    const path = `/api/findings/measures?unitId=${setting.unitId}`
    expect(await pagesOf(test.office, path, 1)).toEqual(answer.items)
    expect(await pagesOf(test.office, path, 2)).toEqual(answer.items)
  })

  it('leave out an outcome-only record, which counts for sponsors', async () => {
    const candidateId = await makeSoldier(test.office, setting.unitId)
    const before = await found('')
    await putSheet(test.office, setting.sheet({ candidateId, ...outcomeOnly('GO'), ...times('2026-03-20') }))
    expect(await found('')).toEqual(before)
    expect(await credits('from=2026-03-20&to=2026-03-20')).toEqual([[1, 1, 1, 1]])
  })

  it('are refused for a time that ends before it begins', async () => {
    for (const kind of ['measures', 'sponsors']) {
      const path = `/api/findings/${kind}?from=2026-03-02&to=2026-03-01`
      expect((await test.office.tries('GET', path)).status).toBeOneOf([400, 422])
      await test.office.refused(400, 'GET', `/api/findings/${kind}?attempts=second`)
      await test.office.refused(400, 'GET', `/api/findings/${kind}?from=2026-02-30`)
      await test.office.refused(400, 'GET', `/api/findings/${kind}?standard=a%20b`)
    }
  })
})

const credits = async (query: string) => {
  const path = `/api/findings/sponsors?unitId=${setting.unitId}&${query}`
  return (await test.office.get<SponsorFindings>(path)).items.map((one) => {
    expect(one.sponsorId).toBe(setting.sponsorId)
    return [one.attempts, one.passes, one.firstAttempts, one.firstPasses]
  })
}

describe('sponsors', () => {
  it('are credited with the attempts of the sheets they are on', async () => {
    expect(await credits('to=2026-03-02')).toEqual([[2, 0, 1, 0]])
    expect(await credits('attempts=first&to=2026-03-02')).toEqual([[1, 0, 1, 0]])
    expect(await credits('attempts=retest&to=2026-03-02')).toEqual([[1, 0, 0, 0]])
    expect(await credits('from=2026-04-02')).toEqual([])
  })

  it('come in pages', async () => {
    const answer = await test.office.get<SponsorFindings>('/api/findings/sponsors')
    expect(await pagesOf(test.office, '/api/findings/sponsors', 1)).toEqual(answer.items)
  })
})
