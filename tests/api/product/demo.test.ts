import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { certifications } from '../../../seed/catalogue/certifications.ts'
import { DEMO_SEED, generateScenario } from '../../../seed/generate/scenario.ts'
import { loadDemo } from '../../../seed/main.ts'
import { DEMO_ACCOUNTS, DEMO_PASSWORD } from '../../../server/accounts/services/demo-accounts.ts'
import { buildApp } from '../../../server/app.ts'
import type { Session } from '../../../server/contract/accounts/session.ts'
import type { CeremonyDetail, CeremonySummary } from '../../../server/contract/ceremonies/ceremonies.ts'
import type { AmendmentProposal } from '../../../server/contract/sheets/amendments.ts'
import type { SheetDetail, SheetSummary } from '../../../server/contract/sheets/sheets.ts'
import type { Soldier, SoldierDetail } from '../../../server/contract/soldiers/soldiers.ts'
import type { Readiness, Retest } from '../../../server/contract/standards/certifications.ts'
import { closeDatabase, type Database, openDatabase } from '../../../server/db/client.ts'
import { type Client, createClient } from '../../support/client.ts'
import { createTestDatabase, type TestDatabase } from '../../support/test-database.ts'

const NOW = '2026-11-25T17:00:00Z'
const TODAY = '2026-11-25'

interface Page<Item> {
  items: Item[]
  next: string | null
}

let database: TestDatabase
let db: Database
let app: Awaited<ReturnType<typeof buildApp>>
let office: Client
let sheets: SheetSummary[]
const said: string[] = []
const clock = () => new Date(NOW)

beforeAll(async () => {
  database = await createTestDatabase()
  db = openDatabase(database.url)
  await loadDemo({ db, clock, timeZone: 'UTC', say: (line) => said.push(line) })
  app = await buildApp({ config: { demo: true, timeZone: 'UTC' }, db, clock, logger: false })
  office = await signedIn('office')
  sheets = await all<SheetSummary>(office, '/api/sheets')
})

afterAll(async () => {
  await app?.close()
  if (db) await closeDatabase(db)
  await database?.close()
})

async function signedIn(name: string): Promise<Client> {
  await app.ready()
  const client = createClient(app.server)
  await client.post('/api/session', { name, password: DEMO_PASSWORD }, 200)
  return client
}

async function all<Item>(client: Client, path: string): Promise<Item[]> {
  const items: Item[] = []
  for (let after = ''; ; ) {
    const page = await client.get<Page<Item>>(`${path}${path.includes('?') ? '&' : '?'}limit=500${after}`)
    items.push(...page.items)
    if (page.next === null) return items
    after = `&after=${encodeURIComponent(page.next)}`
  }
}

test('says what was loaded', () => {
  expect(said).toEqual([expect.stringMatching(/^The demo is loaded: 1\d{3} grade sheets of eighteen months\.$/)])
})

describe('the sheets', () => {
  test('each stands as it was meant to: counted, held or rejected', () => {
    const planned = generateScenario({ seed: DEMO_SEED, today: TODAY }).events.flatMap((event) =>
      event.kind === 'sheet' ? [[event.id, event.stands] as const] : [],
    )
    const stored = sheets.map(({ id, state }) => [id, state] as const)
    expect(Object.fromEntries(stored)).toEqual(Object.fromEntries(planned))
    expect(new Set(stored.map(([, state]) => state))).toEqual(new Set(['counted', 'held', 'rejected']))
  })

  test('every ending and outcome occurs, and so do flags, amendments, second graders and practice', () => {
    expect(new Set(sheets.map(({ result }) => result.ending))).toEqual(
      new Set(['completed', 'stopped', 'void', 'recorded']),
    )
    expect(new Set(sheets.map(({ result }) => result.outcome))).toEqual(new Set(['GO', 'NO-GO', 'VOID']))
    expect(sheets.flatMap(({ flags }) => flags)).toEqual(expect.arrayContaining(['overlap', 'too-early']))
    expect(sheets.some(({ body }) => body.secondOf !== null)).toBe(true)
    expect(sheets.some(({ body }) => body.purpose === 'practice')).toBe(true)
    expect(sheets.filter(({ revision }) => revision > 1).length).toBeGreaterThan(3)
  })

  test('each came in after its test and before now; late paper sheets are among them', () => {
    const delays = sheets.map(
      ({ receivedAt, body }) => (Date.parse(receivedAt) - Date.parse(body.finishedAt)) / 3_600_000,
    )
    expect(Math.min(...delays)).toBeGreaterThanOrEqual(0)
    expect(delays.filter((hours) => hours < 1).length).toBeGreaterThan(delays.length / 3)
    expect(delays.filter((hours) => hours > 7 * 24).length).toBeGreaterThan(10)
  })

  test('some wait for the office, for different reasons', async () => {
    const held = await all<SheetSummary>(office, '/api/sheets?state=held')
    expect(held.length).toBeGreaterThanOrEqual(5)
    expect(held.length).toBeLessThanOrEqual(13)
    expect(new Set(held.flatMap(({ violations }) => violations.map(({ rule }) => rule))).size).toBeGreaterThan(4)
  })

  test('one amendment waits for a second person, which the deputy is', async () => {
    const open = await all<AmendmentProposal>(office, '/api/amendments?open=true')
    expect(open).toHaveLength(1)
    const deputy = await signedIn('deputy')
    expect((await deputy.get<Session>('/api/session')).roles).toEqual(['office'])
    const { revisions } = await office.get<SheetDetail>(`/api/sheets/${open[0]!.sheetId}`)
    expect(revisions).toHaveLength(1)
  })
})

describe('who can stand', () => {
  test('counts of those required sum to the people of the grades that are required', async () => {
    const people = await all<Soldier>(office, `/api/soldiers?asOf=${TODAY}`)
    const inStrength = people.filter(({ unitId }) => unitId !== null)
    expect(inStrength.length).toBeGreaterThan(340)
    expect(inStrength.length).toBeLessThan(380)
    const { counts } = await office.get<Readiness>('/api/readiness?limit=1')
    for (const { code, requiredOf } of certifications) {
      const required = inStrength.filter(({ grade }) => requiredOf!.grades!.includes(grade)).length
      const counted = counts.filter((one) => one.certification === code && one.required)
      expect(
        counted.reduce((sum, { count }) => sum + count, 0),
        code,
      ).toBe(required)
    }
  })

  test('two thirds are certified, and every other status occurs', async () => {
    const { counts } = await office.get<Readiness>('/api/readiness?limit=1')
    const sum = (some: Readiness['counts']) => some.reduce((total, { count }) => total + count, 0)
    const required = counts.filter((one) => one.required)
    const share = sum(required.filter(({ status }) => status === 'certified')) / sum(required)
    expect(share).toBeGreaterThan(0.55)
    expect(share).toBeLessThan(0.75)
    expect(new Set(required.map(({ status }) => status))).toEqual(
      new Set(['suspended', 'certified', 'retest due', 'part way', 'lapsed', 'no test yet']),
    )
  })

  test('a backlog of retests, some past due, some that need a review', async () => {
    const retests = await all<Retest>(office, '/api/retests')
    expect(retests.length).toBeGreaterThanOrEqual(15)
    expect(retests.length).toBeLessThanOrEqual(55)
    expect(retests.some(({ pastDue }) => pastDue)).toBe(true)
    expect(retests.some(({ needsReview }) => needsReview)).toBe(true)
  })

  test('eight ceremonies are ahead; posts are filled, open, or named to who cannot stand', async () => {
    const ahead = await all<CeremonySummary>(office, '/api/ceremonies')
    expect(ahead).toHaveLength(8)
    const details = await Promise.all(ahead.map(({ id }) => office.get<CeremonyDetail>(`/api/ceremonies/${id}`)))
    const posts = details.flatMap(({ formation }) => formation)
    expect(posts.some(({ soldier }) => soldier === null)).toBe(true)
    expect(posts.some(({ soldier }) => soldier?.whyNot.some(({ reason }) => reason === 'not certified'))).toBe(true)
    expect(posts.filter(({ soldier }) => soldier?.whyNot.length === 0).length).toBeGreaterThan(posts.length / 2)
    expect(new Set(ahead.map(({ day }) => day)).size).toBe(7)
  })
})

describe('the demo accounts', () => {
  const ROLES = {
    office: 'office',
    leader: 'leader',
    sponsor: 'sponsor',
    grader: 'grader',
    commander: 'commander',
    admin: 'administrator',
    soldier: 'soldier',
  }

  test.each(DEMO_ACCOUNTS)('%s can sign in', async (name) => {
    const client = await signedIn(name)
    expect((await client.get<Session>('/api/session')).roles).toEqual([ROLES[name]])
  })

  test('leader leads a platoon of their own', async () => {
    const { unitId, soldierId } = await (await signedIn('leader')).get<Session>('/api/session')
    const leader = await office.get<SoldierDetail>(`/api/soldiers/${soldierId}`)
    expect(leader.unitId).toBe(unitId)
    expect(['2LT', '1LT']).toContain(leader.grade)
  })

  test('sponsor has several candidates; soldier is one of them, with a history to show', async () => {
    const sponsor = (await (await signedIn('sponsor')).get<Session>('/api/session')).soldierId
    const soldier = (await (await signedIn('soldier')).get<Session>('/api/session')).soldierId
    const { candidates } = await office.get<SoldierDetail>(`/api/soldiers/${sponsor}`)
    const present = candidates.filter(({ to }) => to === null || to >= TODAY).map(({ candidateId }) => candidateId)
    expect(present.length).toBeGreaterThan(1)
    expect(present).toContain(soldier)
    expect(sheets.filter(({ body }) => body.candidateId === soldier).length).toBeGreaterThan(2)
  })

  test('grader has graded many', async () => {
    const { soldierId } = await (await signedIn('grader')).get<Session>('/api/session')
    const graded = sheets.filter(({ body }) => body.graderId === soldierId)
    expect(graded.length).toBeGreaterThan(50)
  })
})
