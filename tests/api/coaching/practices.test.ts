import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CandidateCoaching } from '../../../server/contract/coaching/coaching.ts'
import type { Practice } from '../../../server/contract/coaching/practices.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, practiceOf, type TestSetting } from '../../support/factories.ts'

let test: TestApp
let setting: TestSetting
let sponsor: Client
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  sponsor = await test.signedIn({ name: 'sponsor', roles: ['sponsor'], soldierId: setting.sponsorId })
})
afterAll(() => test.close())

const of = async (client: Client, candidateId = setting.candidateId) =>
  (await client.get<{ items: Practice[] }>(`/api/soldiers/${candidateId}/practices`)).items
const body = (more: object = {}) => practiceOf(setting.candidateId, setting.standard, more)
const put = (client: Client, sent: object, status = 201, id: string = randomUUID()) =>
  client.put<{ id: string }>(`/api/practices/${id}`, sent, status)

describe('practice of chosen measures', () => {
  it('is stored once, whatever is repeated, and read by the candidate and who coaches', async () => {
    const { id } = await put(sponsor, body())
    await put(sponsor, body(), 200, id)
    await put(sponsor, body({ arm: 'sword' }), 409, id)
    await put(test.office, body(), 409, id)
    const candidate = await test.signedIn({ name: 'self', roles: ['soldier'], soldierId: setting.candidateId })
    const [practice] = await of(candidate)
    expect(practice).toMatchObject({ id, on: '2026-06-14', mayRemove: false })
    expect(practice!.by).toMatch(/^SGT Ashford/)
    expect(practice!.measures[0]).toEqual({
      code: 'halt',
      trials: ['correct', 'incorrect', 'correct'],
      faults: [{ trial: 2, code: 'tip-low' }],
    })
    expect((await of(sponsor))[0]!.mayRemove).toBe(true)
    const coaching = await candidate.get<CandidateCoaching>(`/api/soldiers/${setting.candidateId}/coaching`)
    expect(coaching.lastPractice).toBe('2026-06-14')
  })

  it('changes how nobody stands, opens no retest and enters no figure', async () => {
    const { candidateId, standard } = setting
    const asked = [
      `/api/soldiers/${candidateId}/status`,
      `/api/retests`,
      `/api/readiness`,
      `/api/sheets?soldierId=${candidateId}`,
      `/api/findings/measures?standard=${standard}`,
      `/api/findings/sponsors`,
    ]
    const answers = () => Promise.all(asked.map((path) => test.office.get(path)))
    const before = await answers()
    await put(sponsor, body({ measures: [{ code: 'turn', trials: Array(30).fill('incorrect') }] }))
    expect(await answers()).toEqual(before)
  })

  it('is sent later by who coached on its day, and by nobody who did not', async () => {
    const own = await makeTestSetting(test.office)
    const old = await test.signedIn({ name: 'old sponsor', roles: ['sponsor'], soldierId: own.sponsorId })
    const { sponsors } = await test.office.get<{ sponsors: { id: string }[] }>(`/api/soldiers/${own.candidateId}`)
    const end = `/api/soldiers/${own.candidateId}/sponsorships/${sponsors[0]!.id}/end`
    await test.office.post(end, { on: '2026-06-14' }, 200)
    const sent = practiceOf(own.candidateId, own.standard)
    const { id } = await put(old, sent)
    await put(old, sent, 200, id)
    const day = { startedAt: '2026-06-15T09:00:00Z', finishedAt: '2026-06-15T09:10:00Z' }
    await old.refused(404, 'PUT', `/api/practices/${randomUUID()}`, { ...sent, ...day })
    await sponsor.refused(404, 'PUT', `/api/practices/${randomUUID()}`, sent)
    await old.refused(404, 'GET', `/api/soldiers/${own.candidateId}/practices`)
    await old.refused(404, 'DELETE', `/api/practices/${id}`)
    expect((await of(test.office, own.candidateId)).map((one) => one.id)).toEqual([id])
  })

  it('reaches the entry that was kept where a phone names one given up', async () => {
    const [keptId, awayId] = [
      await makeSoldier(test.office, setting.unitId),
      await makeSoldier(test.office, setting.unitId),
    ]
    await test.office.post(`/api/soldiers/${keptId}/merges`, { awayId, reason: 'Entered twice' })
    const { id } = await put(test.office, practiceOf(awayId, setting.standard))
    await put(test.office, practiceOf(awayId, setting.standard), 200, id)
    expect((await of(test.office, keptId)).map((one) => one.id)).toEqual([id])
  })

  it('is deleted by who led it or the office, and is on record without a mark', async () => {
    const { id } = await put(sponsor, body())
    const another = await put(test.office, body())
    await sponsor.refused(403, 'DELETE', `/api/practices/${another.id}`)
    expect((await sponsor.tries('DELETE', `/api/practices/${id}`)).status).toBe(204)
    await sponsor.refused(404, 'DELETE', `/api/practices/${id}`)
    expect((await test.office.tries('DELETE', `/api/practices/${another.id}`)).status).toBe(204)
    const [entry] = await test.sql<{ action: string; before: object }>(
      `SELECT action, before FROM record_entry WHERE subject_id = $1 AND action LIKE 'practice%' ORDER BY seq DESC LIMIT 1`,
      [setting.candidateId],
    )
    expect(entry).toEqual({
      action: 'practice.removed',
      before: { on: '2026-06-14', standard: setting.standard, measures: ['halt', 'draw'] },
    })
  })

  it('is refused with what it must not be', async () => {
    const one = (more: object) => body({ measures: [{ code: 'halt', trials: ['correct'], ...more }] })
    for (const wrong of [
      body({ measures: [] }),
      body({ standard: 'no-such' }),
      body({ finishedAt: '2026-06-14T14:59:00Z' }),
      body({ note: 'well done' }),
      one({ trials: [] }),
      one({ trials: ['good'] }),
      one({ code: 'composure' }),
      one({ faults: [{ trial: 1, code: 'slow' }] }),
      one({ faults: [{ trial: 2, code: 'tip-low' }] }),
      body({ measures: [...body().measures, { code: 'halt', trials: ['correct'] }] }),
    ]) {
      await sponsor.refused(422, 'PUT', `/api/practices/${randomUUID()}`, wrong)
    }
  })

  it('is paged, the latest first', async () => {
    const candidateId = await makeSoldier(test.office, setting.unitId)
    for (const day of ['2026-05-01', '2026-05-03', '2026-05-02']) {
      const times = { startedAt: `${day}T10:00:00Z`, finishedAt: `${day}T10:10:00Z` }
      await put(test.office, practiceOf(candidateId, setting.standard, times))
    }
    const path = `/api/soldiers/${candidateId}/practices?limit=2`
    const first = await test.office.get<{ items: Practice[]; next: string }>(path)
    const second = await test.office.get<{ items: Practice[]; next: null }>(`${path}&after=${first.next}`)
    expect([...first.items, ...second.items].map(({ on }) => on)).toEqual(['2026-05-03', '2026-05-02', '2026-05-01'])
    expect(second.next).toBeNull()
  })
})
