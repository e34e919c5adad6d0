import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CoachingNote } from '../../../server/contract/coaching/coaching-notes.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, makeSoldier, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'

let test: TestApp
let setting: TestSetting
let sponsor: Client
let path: string
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  sponsor = await test.signedIn({ name: 'sponsor', roles: ['sponsor'], soldierId: setting.sponsorId })
  path = `/api/soldiers/${setting.candidateId}/coaching-notes`
})
afterAll(() => test.close())

const notesFor = async (client: Client) => (await client.get<{ items: CoachingNote[] }>(path)).items
const body = (more: object = {}) => ({ on: '2026-06-10', standard: setting.standard, measures: ['halt'], ...more })

describe('a coaching note', () => {
  it('is written, changed, removed and brought back by its author, and read by the candidate', async () => {
    const { id } = await sponsor.post(path, body({ text: 'Tip drops on the halt' }))
    await sponsor.put(`/api/coaching-notes/${id}`, body({ on: '2026-06-11' }), 200)
    const candidate = await test.signedIn({ name: 'self', roles: ['soldier'], soldierId: setting.candidateId })
    const [note] = await notesFor(candidate)
    expect(note).toMatchObject({ on: '2026-06-11', measures: ['halt'], text: '', mayChange: false, mayRemove: false })
    expect(note!.by).toMatch(/^SGT Ashford, No\. \d+$/)
    expect((await notesFor(sponsor))[0]).toMatchObject({ mayChange: true, mayRemove: true })
    await sponsor.post(`/api/coaching-notes/${id}/remove`, undefined, 200)
    expect(await notesFor(test.office)).toEqual([])
    await sponsor.refused(404, 'PUT', `/api/coaching-notes/${id}`, body())
    await sponsor.post(`/api/coaching-notes/${id}/restore`, undefined, 200)
    expect((await notesFor(test.office)).map((one) => one.id)).toEqual([id])
    await sponsor.post(`/api/coaching-notes/${id}/remove`, undefined, 200)
  })

  it('is put on record without what was written', async () => {
    const { id } = await sponsor.post(path, body({ text: 'A word that stays between us' }))
    const entries = await test.sql<{ action: string; after: object }>(
      `SELECT action, after FROM record_entry WHERE subject_id = $1 AND action LIKE 'coaching%' ORDER BY seq DESC LIMIT 1`,
      [setting.candidateId],
    )
    expect(entries[0]).toEqual({ action: 'coaching-note.added', after: body() })
    await sponsor.post(`/api/coaching-notes/${id}/remove`, undefined, 200)
  })

  it('is refused with what it must not be: nothing said, a day to come, what the standard lacks, too much', async () => {
    await sponsor.refused(422, 'POST', path, body({ measures: [], text: ' ' }))
    await sponsor.refused(422, 'POST', path, body({ on: '2026-06-16' }))
    await sponsor.refused(422, 'POST', path, body({ standard: 'no-such' }))
    await sponsor.refused(422, 'POST', path, body({ measures: ['halt', 'no-such'] }))
    await sponsor.refused(422, 'POST', path, body({ measures: ['halt', 'halt'] }))
    await sponsor.refused(422, 'POST', path, body({ text: 'x'.repeat(1001) }))
    await sponsor.refused(422, 'POST', path, body({ mood: 'good' }))
  })
})

describe('a sponsorship', () => {
  it('ends: the candidate leaves the scope of the one, and the notes pass to the next', async () => {
    const own = await makeTestSetting(test.office)
    const old = await test.signedIn({ name: 'old', roles: ['sponsor'], soldierId: own.sponsorId })
    const notes = `/api/soldiers/${own.candidateId}/coaching-notes`
    await old.post(notes, { on: '2026-06-01', standard: own.standard, text: 'Begin with the halt' })
    const { sponsors } = await test.office.get<{ sponsors: { id: string }[] }>(`/api/soldiers/${own.candidateId}`)
    const end = `/api/soldiers/${own.candidateId}/sponsorships/${sponsors[0]!.id}/end`
    await old.refused(403, 'POST', end, { on: '2026-06-14' })
    await test.office.refused(422, 'POST', end, { on: '2025-12-31' })
    await test.office.post(end, { on: '2026-06-14' }, 200)
    await test.office.refused(409, 'POST', end, { on: '2026-06-14' })
    await old.refused(404, 'GET', `/api/soldiers/${own.candidateId}`)
    const candidate = await test.signedIn({ name: 'told', roles: ['soldier'], soldierId: own.candidateId })
    const told = await candidate.get<{ items: { kind: string; day: string | null }[] }>('/api/notices')
    expect(told.items).toMatchObject([{ kind: 'sponsor ended', day: '2026-06-14' }])
    await old.refused(404, 'GET', notes)
    await old.refused(404, 'POST', notes, { on: '2026-06-15', standard: own.standard, text: 'Still here' })

    const nextId = await makeSoldier(test.office, own.unitId)
    await carryOver(test.office, nextId, own.certification)
    await test.office.post(`/api/soldiers/${own.candidateId}/sponsorships`, { sponsorId: nextId, from: '2026-06-15' })
    const next = await test.signedIn({ name: 'next', roles: ['sponsor'], soldierId: nextId })
    const { items } = await next.get<{ items: CoachingNote[] }>(notes)
    expect(items.map(({ text, mayChange }) => [text, mayChange])).toEqual([['Begin with the halt', false]])
  })

  it('that had ended before a test holds its sheet, and one moved back lets it count', async () => {
    const own = await makeTestSetting(test.office)
    const { sponsors } = await test.office.get<{ sponsors: { id: string }[] }>(`/api/soldiers/${own.candidateId}`)
    const end = `/api/soldiers/${own.candidateId}/sponsorships/${sponsors[0]!.id}/end`
    await test.office.post(end, { on: '2026-03-01' }, 200)
    const { id, state, violations } = await putSheet(test.office, own.sheet())
    expect([state, violations.map(({ rule }) => rule)]).toEqual(['held', ['not-the-sponsor']])
    await test.office.post(end, { on: '2026-03-02' }, 200)
    expect((await test.office.get<{ state: string }>(`/api/sheets/${id}`)).state).toBe('counted')
  })
})

describe('time', () => {
  it('leaves a note as it is after two weeks, and deletes a removed one for good after a day', async () => {
    const own = await test.office.post(path, body())
    const { id: removed } = await test.office.post(path, body())
    await test.office.post(`/api/coaching-notes/${removed}/remove`, undefined, 200)
    test.clock.now = new Date('2026-06-30T12:00:00Z')
    const later = await test.signedIn({ name: 'later', roles: ['office'] })
    expect((await notesFor(later)).map(({ mayChange, mayRemove }) => [mayChange, mayRemove])).toEqual([[false, true]])
    await later.post(`/api/coaching-notes/${own.id}/remove`, undefined, 200)
    await later.refused(404, 'POST', `/api/coaching-notes/${removed}/restore`)
  })
})
