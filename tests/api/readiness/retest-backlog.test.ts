import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import type { Backlog, KeptGo } from '../../../server/contract/readiness/retests.ts'
import type { Retest } from '../../../server/contract/standards/certifications.ts'
import type { Booking } from '../../../server/contract/test-days/test-days.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { type Ground, makeGround, makeTestSetting, putSheet } from '../../support/factories.ts'
import { secondPerson } from '../../support/second-person.ts'
import { GO_MARKS, NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
let ground: Ground
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  ground = await makeGround(test.office)
})
afterAll(() => test.close())

async function makeRetest(on: string) {
  const setting = await makeTestSetting(test.office, ground)
  await putSheet(test.office, setting.sheet({ ...times(on), ...NO_GO_MARKS }))
  return setting
}
const retestOf = async (soldierId: string, asOf = '2026-06-15') =>
  (await test.office.get<{ items: Retest[] }>(`/api/retests?soldierId=${soldierId}&asOf=${asOf}`)).items[0]
const noticesOf = async (client: Client) =>
  (await client.get<{ items: Notice[] }>('/api/notices')).items.map(({ kind }) => kind)

describe('a due day that is moved', () => {
  it('holds for the retest of that NO-GO, with the due day by the rules beside it', async () => {
    const { candidateId, sheet } = await makeRetest('2026-05-01')
    expect(await retestOf(candidateId)).toMatchObject({ due: '2026-05-31', pastDue: true })
    const { certification, standard } = ground
    const body = { certification, standard, due: '2026-06-30', reason: 'On a course' }
    await test.office.post(`/api/soldiers/${candidateId}/due-days`, body)
    const dueMoved = { ruleDue: '2026-05-31', reason: 'On a course' }
    expect(await retestOf(candidateId)).toMatchObject({ due: '2026-06-30', pastDue: false, dueMoved })
    expect(await retestOf(candidateId, '2026-07-01')).toMatchObject({ pastDue: true })
    await test.office.refused(422, 'POST', `/api/soldiers/${candidateId}/due-days`, body)
    const early = await test.office.refused(422, 'POST', `/api/soldiers/${candidateId}/due-days`, {
      ...body,
      due: '2026-05-07',
    })
    expect(early.type).toBe('urn:reviewstand:problem:due-before-earliest')
    await putSheet(test.office, sheet({ ...times('2026-06-10'), ...NO_GO_MARKS }))
    const next = await retestOf(candidateId)
    expect(next).toMatchObject({ on: '2026-06-10', due: '2026-07-10' })
    expect(next).not.toHaveProperty('dueMoved')
  })

  it('needs an open retest', async () => {
    const { candidateId } = await makeTestSetting(test.office, ground)
    const { certification, standard } = ground
    const body = { certification, standard, due: '2026-07-30', reason: 'On leave' }
    const problem = await test.office.refused(409, 'POST', `/api/soldiers/${candidateId}/due-days`, body)
    expect(problem.type).toBe('urn:reviewstand:problem:retest-not-open')
  })
})

describe('the backlog over time', () => {
  it('agrees with the list of retests on every one of its days', async () => {
    const { points } = await test.office.get<Backlog>('/api/retests/backlog?asOf=2026-06-15&months=3')
    expect(points.map(({ day }) => day)).toEqual(['2026-03-31', '2026-04-30', '2026-05-31', '2026-06-15'])
    for (const { day, open, pastDue, needsReview } of points) {
      const { items } = await test.office.get<{ items: Retest[] }>(`/api/retests?asOf=${day}`)
      expect([open, pastDue, needsReview]).toEqual([
        items.length,
        items.filter((one) => one.pastDue).length,
        items.filter((one) => one.needsReview).length,
      ])
    }
  })
})

it('lists the GOs that stop counting soon', async () => {
  const first = await makeGround(test.office)
  const second = await makeGround(test.office)
  const both = { standards: [first.standard, second.standard], windowDays: 90 }
  const body = { code: 'both', title: 'Both', effectiveFrom: '2020-01-01', ...both }
  await test.office.post('/api/certifications', body)
  const setting = await makeTestSetting(test.office, first)
  await putSheet(test.office, setting.sheet({ ...times('2026-03-25'), ...GO_MARKS }))
  const list = (query: string) => test.office.get<{ items: KeptGo[] }>(`/api/kept-gos?${query}`)
  const own = (items: KeptGo[]) => items.filter(({ soldierId }) => soldierId === setting.candidateId)
  expect(own((await list('days=30')).items)).toMatchObject([
    { certification: 'both', standard: first.standard, on: '2026-03-25', countsUntil: '2026-06-23' },
  ])
  expect(own((await list('days=7')).items)).toEqual([])
})

describe('bookings and sheets', () => {
  it('a sheet makes the booking of its day tested, a void one does not, and an amendment follows', async () => {
    const { office } = test
    const setting = await makeRetest('2026-05-20')
    const { candidateId, standard } = setting
    const day = await office.post('/api/test-days', { on: '2026-06-12', unitId: ground.unitId })
    await office.post(`/api/test-days/${day.id}/bookings`, { candidateId, standard })
    const booking = async () =>
      (await office.get<{ items: Booking[] }>(`/api/bookings?candidateId=${candidateId}`)).items[0]!
    const voided = { kind: 'weather' as const, text: 'Storm' }
    const id = randomUUID()
    const sheet = setting.sheet({ ...times('2026-06-12', 8), majors: [], minors: [], void: voided })
    await putSheet(office, sheet, id)
    expect(await booking()).toMatchObject({ state: 'booked', sheetId: null })
    const second = randomUUID()
    await putSheet(office, setting.sheet({ ...times('2026-06-12'), ...GO_MARKS }), second)
    expect(await booking()).toMatchObject({ state: 'tested', sheetId: second })
    await office.refused(409, 'POST', `/api/bookings/${(await booking()).id}/cancel`, { reason: 'Why not' })
    await amend(office, await secondPerson(test), second, setting.sheet({ ...times('2026-06-11'), ...GO_MARKS }))
    expect(await booking()).toMatchObject({ state: 'checked in', sheetId: null })
  })
})

describe('notices', () => {
  it('go to candidate, sponsor and grader, are read by account, and never about somebody out of scope', async () => {
    const { office } = test
    const own = await makeGround(office)
    const setting = await makeTestSetting(office, own)
    const { candidateId, sponsorId, graderId, standard, unitId } = setting
    const candidate = await test.signedIn({ name: 'a candidate', roles: ['soldier'], soldierId: candidateId })
    const sponsor = await test.signedIn({ name: 'a sponsor', roles: ['sponsor'], soldierId: sponsorId })
    const grader = await test.signedIn({ name: 'a grader', roles: ['grader'], soldierId: graderId })
    const day = await office.post('/api/test-days', { on: '2026-07-20', unitId })
    const made = await office.post(`/api/test-days/${day.id}/bookings`, { candidateId, standard, graderId })
    for (const client of [candidate, sponsor, grader]) expect(await noticesOf(client)).toEqual(['booked'])
    test.clock.now = new Date('2026-06-15T12:01:00Z')
    await office.post(`/api/bookings/${made.id}/cancel`, { reason: 'Private matter' }, 200)
    expect(await noticesOf(candidate)).toEqual(['cancelled', 'booked'])
    // The grader has no booking with the candidate any more, and so no sight of them.
    expect(await noticesOf(grader)).toEqual([])
    expect(JSON.stringify(await candidate.get('/api/notices'))).not.toContain('Private matter')
    // That they were booked is over.
    expect(await candidate.get('/api/notices/unread')).toEqual({ unread: 1 })
    const [latest] = (await candidate.get<{ items: Notice[] }>('/api/notices')).items
    expect(await candidate.post('/api/notices/read', { ids: [latest!.id] }, 200)).toEqual({ unread: 0 })
    expect(await candidate.post('/api/notices/read', {}, 200)).toEqual({ unread: 0 })
    expect(await sponsor.get('/api/notices/unread')).toEqual({ unread: 1 })
  })

  it('tell the office of a held sheet, and those on it what became of it', async () => {
    const setting = await makeTestSetting(test.office, ground)
    const id = randomUUID()
    test.clock.now = new Date('2026-06-15T12:02:00Z')
    await putSheet(test.office, setting.sheet({ ...times('2026-06-12'), sponsorId: null }), id)
    expect((await noticesOf(test.office))[0]).toBe('sheet held')
    const candidate = await test.signedIn({ name: 'b candidate', roles: ['soldier'], soldierId: setting.candidateId })
    test.clock.now = new Date('2026-06-15T12:03:00Z')
    await (await secondPerson(test)).post(
      `/api/sheets/${id}/decision`,
      { decision: 'count', reason: 'Sponsor was there' },
      200,
    )
    expect(await noticesOf(candidate)).toEqual(['sheet counted', 'sheet held'])
  })
})
