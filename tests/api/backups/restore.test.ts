import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import pg from 'pg'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildApp } from '../../../server/app.ts'
import { restoreArchive } from '../../../server/archive/restore-archive.ts'
import { saveArchive } from '../../../server/archive/save-archive.ts'
import { closeDatabase, openDatabase } from '../../../server/db/client.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Answer, type Client, createClient } from '../../support/client.ts'
import { makeTestSetting, putSheet } from '../../support/factories.ts'
import { PUBLISHED_KEY } from '../../support/published-key.ts'
import { times } from '../../support/sheet-body.ts'
import { createEmptyDatabase, type TestDatabase } from '../../support/test-database.ts'

/** A calendar leads back to where it was asked for, which is another place for each server. */
const withoutAddress = (body: unknown): unknown =>
  body === undefined ? body : JSON.parse(JSON.stringify(body).replace(/http:\/\/127\.0\.0\.1:\d+/g, 'http://here'))

const archives = path.resolve(import.meta.dirname, '../../fixtures/archives')

interface OpenApi {
  readonly paths: Record<string, Record<string, { parameters?: { name: string; in: string; required?: boolean }[] }>>
}

/** What is about the running server, or about who asks just now; and one that goes on telling news and does not end. */
const NOT_COMPARED = new Set([
  '/api/account/sessions',
  '/api/openapi.json',
  '/api/session',
  '/api/test-days/{id}/line/changes',
])

/** Asking for these makes an entry of the record, salted anew; they are asked last. */
const isOnRecord = (route: string): boolean => /\/(extract|certificate|file)$/.test(route)

/** When somebody was last seen is a matter of sessions, which no archive has; so is the entry of the sign-in after it. */
function withoutSessions(route: string, body: unknown): unknown {
  if (route === '/api/record/verification') return { ...(body as object), lastHash: null }
  if (route === '/api/record') {
    const { items } = body as { items: { hash: string | null }[] }
    return { ...(body as object), items: items.map((item, place) => (place === 0 ? { ...item, hash: null } : item)) }
  }
  if (route !== '/api/accounts') return body
  const { items } = body as { items: { lastSeenAt: unknown }[] }
  return { ...(body as object), items: items.map((item) => ({ ...item, lastSeenAt: null })) }
}

describe('a unit restored from its archive', () => {
  let test: TestApp
  let folder: string
  let target: TestDatabase
  let restored: { client: Client; close(): Promise<void> }
  let original: Client
  const ids: Record<string, string[]> = {}
  const codes: string[] = []

  beforeAll(async () => {
    test = await buildTestApp()
    const { office } = test
    const setting = await makeTestSetting(office)
    const sheets = [randomUUID(), randomUUID()] as const
    await putSheet(office, setting.sheet(), sheets[0])
    await putSheet(office, setting.sheet({ ...times('2026-04-02'), graderId: setting.sponsorId }), sheets[1])
    const { unitId, candidateId, sponsorId, graderId, certification, standard } = setting
    await office.post('/api/suspensions', { soldierId: candidateId, certification, from: '2026-05-01', reason: 'Rest' })
    const testDay = await office.post('/api/test-days', { on: '2026-07-01', unitId, place: 'Drill hall' })
    const ceremony = await office.post('/api/ceremonies', {
      title: 'Change of command',
      place: 'Parade ground',
      unitId,
      startsAt: '2026-07-04T10:00:00Z',
      endsAt: '2026-07-04T11:00:00Z',
      posts: [
        { title: 'Left guide', row: 1, place: 1, certification, arm: 'sword', grades: null, soldierId: graderId },
      ],
    })
    original = await test.signedIn({ name: 'both', roles: ['office', 'administrator'] })
    const { items: standards } = await original.get<{ items: { id: string }[] }>('/api/standards')
    const { items: certifications } = await original.get<{ items: { id: string }[] }>('/api/certifications')
    Object.assign(ids, {
      soldiers: [candidateId, sponsorId, graderId],
      sheets,
      units: [unitId],
      standards: standards.map(({ id }) => id),
      certifications: certifications.map(({ id }) => id),
      'test-days': [testDay.id],
      ceremonies: [ceremony.id],
    })
    codes.push(standard, certification)
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-restore-'))
    const file = path.join(folder, 'all.tar.gz')
    const [{ name }] = (await test.sql<{ name: string }>('SELECT current_database() AS name')) as [{ name: string }]
    target = await createEmptyDatabase()
    const url = new URL(target.url)
    url.pathname = `/${name}`
    const client = new pg.Client({ connectionString: url.href })
    await client.connect()
    await saveArchive(client, file, { timeZone: 'UTC', product: '0.1.0' })
    await client.end()
    await restoreArchive(target.url, file)
    // The record has every sign-in: the original gets the same one.
    await original.post('/api/session', { name: 'both', password: PASSWORD }, 200)
    restored = await openRestored()
  })
  afterAll(async () => {
    await restored?.close()
    await test.close()
    await target?.close()
    fs.rmSync(folder, { recursive: true })
  })

  async function openRestored() {
    const db = openDatabase(target.url)
    const config = { demo: false, timeZone: 'UTC' }
    const app = await buildApp({
      config,
      db,
      clock: () => test.clock.now,
      certificateKey: PUBLISHED_KEY,
      logger: false,
    })
    await app.listen({ port: 0, host: '127.0.0.1' })
    const client = createClient(app.server)
    expect((await client.tries('POST', '/api/session', { name: 'both', password: PASSWORD })).status).toBe(200)
    return {
      client,
      async close() {
        await app.close()
        await closeDatabase(db)
      },
    }
  }

  /** Addresses of a route: with the ids we have of its kind, and each with several days where it takes one. */
  function addressesOf(
    route: string,
    parameters: readonly { name: string; in: string; required?: boolean }[],
  ): string[] {
    const kind = route.split('/')[2]!
    const paths = route.includes('{') ? (ids[kind] ?? []).map((id) => route.replace(/\{id\}/, id)) : [route]
    const query = new URLSearchParams()
    for (const { name, in: place, required } of parameters) {
      if (place !== 'query') continue
      if (name === 'limit') query.set(name, '500')
      if (!required) continue
      if (/standard/i.test(name)) query.set(name, codes[0]!)
      else if (/certification/i.test(name)) query.set(name, codes[1]!)
      else if (/soldier|candidate/i.test(name)) query.set(name, ids.soldiers![0]!)
      else if (/unit/i.test(name)) query.set(name, ids.units![0]!)
      else if (/from|to|on|through|asOf/i.test(name)) query.set(name, '2026-06-15')
    }
    const days = parameters.some(({ name }) => name === 'asOf')
      ? ['2026-03-01', '2026-03-02', '2026-06-15', '2027-09-01']
      : [null]
    return paths.flatMap((each) =>
      days.map((day) => {
        if (day !== null) query.set('asOf', day)
        return query.size > 0 ? `${each}?${query}` : each
      }),
    )
  }

  it('answers every question as the original does', async () => {
    const { paths } = await original.get<OpenApi>('/api/openapi.json')
    const statuses: Record<string, number> = {}
    let compared = 0
    const inOrder = Object.entries(paths).sort(([one], [other]) => Number(isOnRecord(one)) - Number(isOnRecord(other)))
    for (const [route, { get }] of inOrder) {
      if (!get || NOT_COMPARED.has(route)) continue
      for (const address of addressesOf(route, get.parameters ?? [])) {
        const [one, other] = await Promise.all([original.tries('GET', address), restored.client.tries('GET', address)])
        const answered = ({ status, body }: Answer) => ({
          address,
          status,
          body: withoutAddress(withoutSessions(route, body)),
        })
        expect(answered(other)).toEqual(answered(one))
        statuses[one.status] = (statuses[one.status] ?? 0) + 1
        compared += 1
      }
    }
    expect(compared).toBeGreaterThan(60)
    expect(statuses[200]).toBeGreaterThan(compared * 0.8)
  })

  it('finds its record of changes whole', async () => {
    const { whole, entries } = await restored.client.get<{ whole: boolean; entries: number }>(
      '/api/record/verification',
    )
    expect(whole).toBe(true)
    expect(entries).toBeGreaterThan(10)
  })

  it('goes on from there', async () => {
    const unitId = ids.units![0]!
    const soldier = {
      rosterNumber: 'N1',
      familyName: 'New',
      givenName: 'Ann',
      grade: 'SGT',
      unitId,
      from: '2026-06-01',
    }
    await restored.client.post('/api/soldiers', soldier)
    expect(await restored.client.get('/api/record/verification')).toMatchObject({ whole: true, problems: [] })
  })
})

describe('the archive of each release', () => {
  const files = fs.readdirSync(archives).filter((name) => name.endsWith('.tar.gz'))

  it('is there', () => {
    expect(files.length).toBeGreaterThan(0)
  })

  it.each(files)('%s is restored on the schema of today', async (name) => {
    const target = await createEmptyDatabase()
    const { head, tables } = await restoreArchive(target.url, path.join(archives, name))
    expect(`${head.product}.tar.gz`).toBe(name)
    expect(tables.find(({ table }) => table === 'sheet')?.rows).toBeGreaterThan(0)
    const db = openDatabase(target.url)
    const app = await buildApp({
      config: { demo: false, timeZone: 'UTC' },
      db,
      clock: () => new Date(head.takenAt),
      logger: false,
    })
    await app.listen({ port: 0, host: '127.0.0.1' })
    const client = createClient(app.server)
    await client.post('/api/session', { name: 'both', password: PASSWORD }, 200)
    expect((await client.get<{ items: unknown[] }>('/api/soldiers')).items.length).toBeGreaterThan(0)
    expect((await client.get<{ items: unknown[] }>('/api/sheets')).items.length).toBeGreaterThan(0)
    const verification = await client.get<{ whole: boolean; entries: number }>('/api/record/verification')
    expect(verification).toMatchObject({ whole: true, problems: [] })
    expect(verification.entries).toBeGreaterThan(10)
    await app.close()
    await closeDatabase(db)
    await target.close()
  })
})
