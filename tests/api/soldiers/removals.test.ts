import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { restoreArchive } from '../../../server/archive/restore-archive.ts'
import { saveArchive } from '../../../server/archive/save-archive.ts'
import type { RecordItem } from '../../../server/contract/record/record.ts'
import type { SheetDetail } from '../../../server/contract/sheets/sheets.ts'
import type { RemovalPreview } from '../../../server/contract/soldiers/removals.ts'
import { PERSONAL_TEXTS } from '../../../server/soldiers/db/removals/personal-texts.db.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, makeSoldier, makeTestSetting, putSheet } from '../../support/factories.ts'
import { OTHER_COLUMNS } from '../../support/other-columns.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'
import { createEmptyDatabase } from '../../support/test-database.ts'

let test: TestApp
let warden: Client
beforeAll(async () => {
  test = await buildTestApp()
  warden = await test.signedIn({ name: 'warden', roles: ['administrator'] })
})
afterAll(() => test.close())

const NUMBER = 'QX-7781'
const leave = (id: string) =>
  test.office.post(`/api/soldiers/${id}/changes`, { from: '2026-06-01', left: 'separated' }, 200)
const remove = (id: string, confirmation: string) =>
  test.office.post(`/api/soldiers/${id}/removal`, { reason: 'Five years are over', confirmation }, 200)
const preview = (id: string) => test.office.get<RemovalPreview>(`/api/soldiers/${id}/removal`)

/** A candidate with words everywhere, named Quillfeather, who has left; another candidate's sheet names them, too. */
async function makeLeaver(rosterNumber = NUMBER) {
  const setting = await makeTestSetting(test.office)
  const { unitId, sponsorId, graderId, certification, standard } = setting
  const candidateId = await makeSoldier(test.office, unitId, {
    rosterNumber,
    familyName: 'Quillfeather',
    givenName: 'Zephyrine',
  })
  const about = `/api/soldiers/${candidateId}`
  const own = 'Zephyrine Quillfeather did so'
  await test.office.post(`${about}/sponsorships`, { sponsorId, from: '2026-01-01' })
  const account = await test.signedIn({
    name: `quillfeather ${rosterNumber}`,
    roles: ['soldier'],
    soldierId: candidateId,
  })
  const sheets = [randomUUID(), randomUUID(), randomUUID()] as const
  const sheet = (more: object) => setting.sheet({ candidateId, notes: own, ...more })
  await putSheet(test.office, sheet({ ...times('2026-02-02'), ...NO_GO_MARKS }), sheets[0])
  await putSheet(test.office, sheet({ ...times('2026-03-10') }), sheets[1])
  const isVoid = { void: { kind: 'other', text: own }, majors: [], minors: [] }
  await putSheet(test.office, sheet({ ...times('2026-04-10'), ...isVoid }), sheets[2])
  const before = await test.office.get<SheetDetail>(`/api/sheets/${sheets[1]}`)
  await account.post(`/api/sheets/${sheets[1]}/appeals`, { reason: own })
  await test.office.post(`/api/suspensions`, { soldierId: candidateId, certification, from: '2026-05-01', reason: own })
  await test.office.post(`${about}/reviews`, { standard, on: '2026-02-20', note: own })
  await test.office.post(`${about}/withdrawals`, { certification, on: '2026-05-20', reason: own })
  await test.office.post(`${about}/awards`, {
    certification,
    awardedOn: '2024-01-01',
    validThrough: '2024-12-31',
    evidence: own,
  })
  await test.office.post(`${about}/absences`, { from: '2026-05-02', through: '2026-05-09', kind: 'leave' })
  await putSheet(test.office, setting.sheet({ ...times('2026-03-02'), notes: `Beside (QUILLFEATHER) in the rank` }))
  await leave(candidateId)
  return { ...setting, candidateId, graderId, sheets, before, account }
}

/** Every table as text, where a name is looked for; keys and hashes of sign-ins are none of it. */
async function findIn(words: RegExp): Promise<string[]> {
  const tables = await test.sql<{ name: string }>(
    "SELECT relname AS name FROM pg_class WHERE relkind = 'r' AND relnamespace = current_schema()::regnamespace",
  )
  const found: string[] = []
  for (const { name } of tables) {
    const rows = await test.sql<{ text: string }>(`SELECT to_jsonb(t)::text AS text FROM "${name}" t`)
    found.push(...rows.filter(({ text }) => words.test(text)).map(() => name))
  }
  return found
}

interface OpenApi {
  readonly paths: Record<string, { get?: { parameters?: { name: string; in: string; required?: boolean }[] } }>
}

/** What every question about findings, readiness and retests answers, with all names of the person made one. */
async function askFigures(setting: { standard: string; certification: string; unitId: string }): Promise<string[]> {
  const { paths } = await test.office.get<OpenApi>('/api/openapi.json')
  const answers: string[] = []
  for (const [route, { get }] of Object.entries(paths)) {
    if (!get || route.includes('{') || !/^\/api\/(findings|readiness|retests|requirements)/.test(route)) continue
    const query = new URLSearchParams()
    for (const { name, in: place, required } of get.parameters ?? []) {
      if (place !== 'query' || !required) continue
      if (/standard/i.test(name)) query.set(name, setting.standard)
      else if (/certification/i.test(name)) query.set(name, setting.certification)
      else if (/unit/i.test(name)) query.set(name, setting.unitId)
      else query.set(name, name === 'from' ? '2026-01-01' : '2026-05-15')
    }
    const { status, body } = await test.office.tries('GET', `${route}?${query}`)
    const named = /Quillfeather|Zephyrine|QX-7781|Removed|Soldier \d{4}|removed-\d{4}/g
    answers.push(`${route} ${status} ${JSON.stringify(body).replace(named, 'them')}`)
  }
  return answers
}

const FIGURES = ['tally', 'person_tally', 'standing', 'retest_span', 'earned_award', 'soldier_period', 'sponsorship']

describe('removing the personal data of a soldier', () => {
  it('takes out number, names and words, everywhere; figures stay, and the record is whole and says so', async () => {
    const leaver = await makeLeaver()
    const { candidateId, sheets, before, account } = leaver
    const figures = async () => {
      const tables = FIGURES.map((table) => `(SELECT json_agg(t ORDER BY t::text) FROM ${table} t) AS ${table}`)
      const [rows] =
        await test.sql(`SELECT ${tables.join(', ')}, (SELECT json_agg(json_build_array(id, day, marks, outcome,
        state, attempts, violations) ORDER BY id) FROM sheet) AS sheets`)
      return rows
    }
    const were = await figures()
    const answered = await askFigures(leaver)
    expect(answered.filter((answer) => / 200 /.test(answer)).length).toBeGreaterThan(10)
    const said = await preview(candidateId)
    expect(said.obstacles).toEqual([])
    expect(said.goes).toEqual(
      expect.arrayContaining([
        { what: 'notes on sheets and reasons of amendments', count: 3 },
        { what: 'appeals and what was decided', count: 1 },
        { what: 'notes of reviews', count: 1 },
        { what: 'evidence of carried-over awards', count: 1 },
        { what: 'absences', count: 1 },
      ]),
    )
    expect(said.mentions).toMatchObject([{ what: 'notes on sheets and reasons of amendments', count: 1 }])
    expect(said.mentions[0]!.places).toMatchObject([{ kind: 'sheet' }])

    const { rosterNumber } = await test.office.post<{ rosterNumber: string }>(
      `/api/soldiers/${candidateId}/removal`,
      { reason: 'Five years are over', confirmation: NUMBER },
      200,
    )
    expect(rosterNumber).toMatch(/^removed-\d{4}$/)
    expect(await findIn(/zephyrine|QX-7781/i)).toEqual([])
    expect(await findIn(/quillfeather/i)).toEqual(['sheet_revision'])
    expect(await figures()).toEqual(were)
    expect(await askFigures(leaver)).toEqual(answered)
    const after = await test.office.get<SheetDetail>(`/api/sheets/${sheets[1]}`)
    expect(after).toEqual({
      ...before,
      notes: 'Removed',
      people: { ...before.people, [candidateId]: expect.stringContaining('Removed, Soldier') },
      revisions: before.revisions.map((one) => ({ ...one, body: { ...one.body, notes: 'Removed' } })),
      appeals: [expect.objectContaining({ reason: 'Removed' })],
    })
    expect((await test.office.get<SheetDetail>(`/api/sheets/${sheets[2]}`)).void).toEqual({
      kind: 'other',
      text: 'Removed',
    })
    expect(await test.office.get(`/api/soldiers/${candidateId}`)).toMatchObject({
      rosterNumber,
      familyName: 'Removed',
      removedAt: test.clock.now.toISOString(),
    })
    await account.refused(401, 'GET', '/api/soldiers')

    expect(await warden.get('/api/record/verification')).toMatchObject({ whole: true, problems: [] })
    const { items } = await warden.get<{ items: RecordItem[] }>(`/api/record?limit=500&subjectId=${candidateId}`)
    const [removal, ...others] = items
    expect(removal).toMatchObject({ action: 'soldier.removed', reason: 'Five years are over', emptied: [] })
    expect(others.length).toBeGreaterThan(5)
    for (const { emptied, before: was, after: is, reason } of others) {
      expect([emptied.includes('what'), was, is, reason]).toEqual([true, null, null, null])
    }
  })

  it('leaves the number free, and nothing that would bring them back', async () => {
    const { candidateId, unitId } = await makeLeaver('QX-1')
    const away = await makeSoldier(test.office, unitId, { rosterNumber: 'QX-2', familyName: 'Quillfeather' })
    await leave(away)
    const { id: merge } = await test.office.post(`/api/soldiers/${candidateId}/merges`, {
      awayId: away,
      reason: 'Twice',
    })
    await remove(candidateId, 'QX-1')
    expect(await findIn(/QX-[12]\b/)).toEqual([])
    await test.office.refused(409, 'POST', `/api/merges/${merge}/undo`, { reason: 'Back' })
    await test.office.refused(409, 'POST', `/api/soldiers/${candidateId}/removal`, {
      reason: 'Again',
      confirmation: 'x',
    })
    const names = { rosterNumber: 'QX-1', familyName: 'Quillfeather', givenName: 'Zoe', reason: 'Back' }
    await test.office.refused(409, 'PUT', `/api/soldiers/${candidateId}`, names)
    const other = await makeSoldier(test.office, unitId, { rosterNumber: 'QX-1' })
    expect(other).not.toBe(candidateId)
    for (const [kept, given] of [
      [candidateId, other],
      [other, candidateId],
    ]) {
      await test.office.refused(409, 'POST', `/api/soldiers/${kept}/merges`, { awayId: given, reason: 'Back' })
    }
    const back = { from: '2026-06-10', unitId }
    await test.office.refused(409, 'POST', `/api/soldiers/${candidateId}/changes`, back)
  })

  it('is refused while they are of the strength, with another number, and of oneself', async () => {
    const { unitId, certification } = await makeTestSetting(test.office)
    const id = await makeSoldier(test.office, unitId, { rosterNumber: 'QX-3' })
    await carryOver(test.office, id, certification)
    expect((await preview(id)).obstacles).toMatchObject([{ rule: 'not-left' }])
    const body = { reason: 'Over', confirmation: 'QX-3' }
    await test.office.refused(409, 'POST', `/api/soldiers/${id}/removal`, body)
    await leave(id)
    await test.office.refused(422, 'POST', `/api/soldiers/${id}/removal`, { ...body, confirmation: 'QX-33' })
    const own = await test.signedIn({ name: 'own', roles: ['office'], soldierId: id })
    const { obstacles } = await own.get<RemovalPreview>(`/api/soldiers/${id}/removal`)
    expect(obstacles).toMatchObject([{ rule: 'own-data' }])
    const problem = await own.refused(403, 'POST', `/api/soldiers/${id}/removal`, body)
    expect(problem.type).toBe('urn:reviewstand:problem:impartiality')
    await test.office.refused(404, 'POST', `/api/soldiers/${randomUUID()}/removal`, body)
    expect(await test.office.get(`/api/soldiers/${id}`)).toMatchObject({ rosterNumber: 'QX-3', removedAt: null })
  })

  it('is the only way a revision or decision ever changes, and only so', async () => {
    const { candidateId, sheets } = await makeLeaver('QX-4')
    await remove(candidateId, 'QX-4')
    for (const sql of [
      `UPDATE sheet_revision SET body = '{}' WHERE sheet_id = '${sheets[0]}'`,
      `UPDATE sheet_revision SET reason = 'Better' WHERE sheet_id = '${sheets[0]}'`,
      `UPDATE sheet_revision SET at = now() WHERE sheet_id = '${sheets[0]}'`,
      `UPDATE sheet_revision SET body = without_words(body)`,
      `DELETE FROM sheet_revision WHERE sheet_id = '${sheets[0]}'`,
    ]) {
      await expect(test.sql(sql), sql).rejects.toThrow(/never changed/)
    }
  })

  it('outlives a backup and its restoring', async () => {
    const { candidateId } = await makeLeaver('QX-5')
    await remove(candidateId, 'QX-5')
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-removal-'))
    const target = await createEmptyDatabase()
    const [{ name }] = (await test.sql<{ name: string }>('SELECT current_database() AS name')) as [{ name: string }]
    const url = new URL(target.url)
    url.pathname = `/${name}`
    const [source, restored] = [url.href, target.url].map(
      (connectionString) => new pg.Client({ connectionString }),
    ) as [pg.Client, pg.Client]
    await source.connect()
    const file = path.join(folder, 'all.tar.gz')
    await saveArchive(source, file, { timeZone: 'UTC', product: '0.1.0' })
    await source.end()
    await restoreArchive(target.url, file)
    await restored.connect()
    const { rows } = await restored.query(
      `SELECT s.family_name AS name, (SELECT count(*)::int FROM record_breaks()) AS breaks,
        (SELECT count(*)::int FROM record_entry WHERE what_salt IS NULL) AS emptied
       FROM removal r JOIN soldier s ON s.id = r.soldier_id WHERE s.id = $1`,
      [candidateId],
    )
    expect(rows).toMatchObject([{ name: 'Removed', breaks: 0 }])
    expect(rows[0].emptied).toBeGreaterThan(5)
    await restored.end()
    await target.close()
    fs.rmSync(folder, { recursive: true })
  })
})

describe('every column that could hold words', () => {
  it('is decided about: searched, taken out, or it holds nothing of a person', async () => {
    const columns = await test.sql<{ name: string }>(
      `SELECT table_name || '.' || column_name AS name FROM information_schema.columns
       WHERE table_schema = current_schema() AND table_name <> '_prisma_migrations'
         AND (data_type IN ('text', 'character varying', 'jsonb', 'json') OR udt_name IN ('_text', '_varchar'))`,
    )
    const decided = new Set([
      ...PERSONAL_TEXTS.flatMap(({ table, texts, notes = [] }) =>
        [...texts, ...notes].map((name) => `${table}.${name}`),
      ),
      ...Object.keys(OTHER_COLUMNS).flatMap((key) => {
        const [table, names] = key.split('.') as [string, string]
        return names.split(', ').map((name) => `${table}.${name}`)
      }),
    ])
    const there = columns.map(({ name }) => name)
    expect(there.length).toBeGreaterThan(100)
    expect(there.filter((name) => !decided.has(name))).toEqual([])
    expect([...decided].filter((name) => !there.includes(name))).toEqual([])
  })
})
