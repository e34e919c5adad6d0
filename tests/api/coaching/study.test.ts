import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Coaching } from '../../../server/contract/coaching/coaching.ts'
import type { StudySheet } from '../../../server/contract/coaching/study.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { marks, STOPPED_MARKS, times } from '../../support/sheet-body.ts'

let app: TestApp
let own: TestSetting
let other: TestSetting
const faulty = (count: number, fault: string) => {
  const trials = ['incorrect', 'incorrect', 'incorrect'] as ('correct' | 'incorrect')[]
  const faults = Array.from({ length: count }, (_, i) => ({ trial: i + 1, code: fault }))
  return {
    ...marks(),
    minors: marks().minors!.map((minor) => (minor.code === 'halt' ? { ...minor, trials, faults } : minor)),
  }
}
const read = (client = app.office, query = '') => client.get<StudySheet>(`/api/study/${own.standard}${query}`)
const faultsOf = ({ measures }: StudySheet, code: string) => measures.find(({ measure }) => measure === code)!.faults

beforeAll(async () => {
  app = await buildTestApp()
  own = await makeTestSetting(app.office)
  other = await makeTestSetting(app.office, own)
  await putSheet(app.office, own.sheet({ ...times('2026-03-02'), ...faulty(2, 'tip-low') }))
  await putSheet(app.office, other.sheet({ ...times('2026-03-03'), ...faulty(3, 'tip-high') }))
  await putSheet(app.office, other.sheet({ ...times('2026-04-20'), ...STOPPED_MARKS }))
  const practice = { purpose: 'practice' as const, graderId: own.sponsorId }
  await putSheet(app.office, own.sheet({ ...practice, ...times('2026-05-01'), ...faulty(3, 'tip-low') }))
})
afterAll(() => app.close())

let signedIn: ReturnType<TestApp['signedIn']> | undefined
/** The sponsor has one account. */
const asSponsor = () => {
  signedIn ??= app.signedIn({ name: 'sponsor', roles: ['sponsor'], soldierId: own.sponsorId })
  return signedIn
}

describe('a study sheet', () => {
  it('has every measure of the standard with the faults the unit is marked for most first', async () => {
    const sheet = await read()
    expect(sheet.standard.code).toBe(own.standard)
    expect(sheet.candidate).toBeNull()
    expect(sheet.measures.map(({ measure, major }) => [measure, major])).toEqual([
      ['composure', true],
      ['draw', false],
      ['halt', false],
      ['turn', false],
    ])
    // Three on the first test, and one that the reading of the stopped one brought.
    expect(faultsOf(sheet, 'halt')).toEqual([
      { fault: 'tip-high', unit: 4, own: 0 },
      { fault: 'tip-low', unit: 2, own: 0 },
    ])
    expect(faultsOf(sheet, 'composure').map(({ unit }) => unit)).toEqual([1, 1])
  })

  it('has beside them a candidate’s own, of tests and not of practice', async () => {
    const sheet = await read(app.office, `?candidateId=${own.candidateId}`)
    expect(sheet.candidate).toMatchObject({ id: own.candidateId, tests: 1 })
    expect(faultsOf(sheet, 'halt')).toEqual([
      { fault: 'tip-high', unit: 4, own: 0 },
      { fault: 'tip-low', unit: 2, own: 2 },
    ])
    expect(sheet.measures.find(({ measure }) => measure === 'halt')!.own).toEqual({ tested: 1, noGo: 1 })
    expect(JSON.stringify(sheet)).not.toContain(other.candidateId)
  })

  it('is there for whoever sees the candidate, and the unit’s alone for anybody', async () => {
    const sponsor = await asSponsor()
    const soldier = await app.signedIn({ name: 'soldier', roles: ['soldier'], soldierId: other.candidateId })
    expect((await read(sponsor, `?candidateId=${own.candidateId}`)).candidate).not.toBeNull()
    expect((await read(soldier)).measures).toHaveLength(4)
    const refused = await soldier.tries('GET', `/api/study/${own.standard}?candidateId=${own.candidateId}`)
    expect(refused.status).toBe(404)
    expect((await app.office.tries('GET', '/api/study/none')).status).toBe(404)
  })
})

it('the sponsor’s desk says the fault noted most on each measure to drill, and how often', async () => {
  const desk = await asSponsor()
  const { items } = await desk.get<Coaching>('/api/coaching')
  const drill = items.find(({ candidateId }) => candidateId === own.candidateId)!.drill!.items
  expect(drill.find(({ measure }) => measure === 'halt')!.fault).toEqual({ code: 'tip-low', count: 2 })
  expect(drill.find(({ measure }) => measure === 'turn')!.fault).toBeNull()
})
