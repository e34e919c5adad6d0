import { randomUUID } from 'node:crypto'
import type { CeremonyDetail } from '../../server/contract/ceremonies/ceremonies.ts'
import type { TestApp } from './build-test-app.ts'
import type { Client } from './client.ts'
import { carryOver, makeCertification, makeSoldier, makeStandard, makeUnit, putSheet } from './factories.ts'
import { GO_MARKS, NO_GO_MARKS, type SheetInput, times } from './sheet-body.ts'

export const ROLES = ['leader', 'commander', 'sponsor', 'grader', 'soldier'] as const
type RoleName = (typeof ROLES)[number]

/** A platoon with something of everything. */
export interface Platoon {
  readonly unitId: string
  /** By what they do there. */
  readonly people: Readonly<
    Record<'candidate' | 'late' | 'sponsor' | 'grader' | 'guide' | 'alternate' | 'away', string>
  >
  /** Ids of sheets, notes, test days and the like that are about its people alone. */
  readonly ids: string[]
  readonly rosterNumbers: readonly string[]
  readonly familyName: string
  readonly practice: object
}

export interface TwoPlatoons {
  readonly a: Platoon
  readonly b: Platoon
  readonly standard: string
  readonly certification: string
  /** Of the battalion, with people of both. */
  readonly shared: Readonly<Record<'unit' | 'testDay' | 'ceremony' | 'post', string>>
  /** Accounts of platoon A. */
  readonly clients: Readonly<Record<RoleName, Client>>
}

/** Two platoons of one battalion that share a test day, a ceremony, a standard; on 15 June 2026. */
export async function makeTwoPlatoons(test: TestApp): Promise<TwoPlatoons> {
  const { office } = test
  const unit = await makeUnit(office, { name: 'Battalion' })
  const standard = await makeStandard(office)
  const certification = await makeCertification(office, { standards: [standard] })
  const testDay = (await office.post('/api/test-days', { on: '2026-06-20', unitId: unit, place: 'Drill hall' })).id
  const kin = { office, unit, standard, certification, testDay }
  const a = await makePlatoon(kin, 'Ashford', 'AX')
  const b = await makePlatoon(kin, 'Quillfeather', 'BX')
  await entangle(kin, a, b)
  const post = (place: number, soldierId: string | null) => ({
    title: `Post ${place}`,
    row: 1,
    place,
    certification,
    soldierId,
  })
  const { id: ceremony } = await office.post('/api/ceremonies', {
    title: 'Review of both',
    unitId: unit,
    startsAt: '2026-06-25T10:00:00Z',
    endsAt: '2026-06-25T11:00:00Z',
    posts: [post(1, a.people.guide), post(2, b.people.guide), post(3, null)],
    rehearsals: [{ startsAt: '2026-06-24T10:00:00Z', endsAt: '2026-06-24T11:00:00Z' }],
    alternates: [b.people.alternate, a.people.alternate],
  })
  const { formation } = await office.get<CeremonyDetail>(`/api/ceremonies/${ceremony}`)
  const account: Record<RoleName, object> = {
    leader: { unitId: a.unitId },
    commander: { unitId: a.unitId },
    sponsor: { soldierId: a.people.sponsor },
    grader: { soldierId: a.people.grader },
    soldier: { soldierId: a.people.candidate },
  }
  const clients = {} as Record<RoleName, Client>
  for (const role of ROLES) {
    clients[role] = await test.signedIn({ name: `the ${role} of A`, roles: [role], ...account[role] })
  }
  return { a, b, standard, certification, shared: { unit, testDay, ceremony, post: formation[2]!.id }, clients }
}

interface Kin {
  readonly office: Client
  readonly unit: string
  readonly standard: string
  readonly certification: string
  readonly testDay: string
}

async function makePlatoon(kin: Kin, familyName: string, prefix: string): Promise<Platoon> {
  const { office, standard, certification, testDay } = kin
  const unitId = await makeUnit(office, { kind: 'platoon', parentId: kin.unit })
  const people = {} as Record<keyof Platoon['people'], string>
  const names = ['candidate', 'late', 'sponsor', 'grader', 'guide', 'alternate', 'away'] as const
  for (const [index, name] of names.entries()) {
    const rosterNumber = `${prefix}${index}`
    people[name] = await makeSoldier(office, unitId, { rosterNumber, familyName, givenName: name })
  }
  for (const name of ['sponsor', 'grader', 'guide', 'alternate', 'away'] as const) {
    await carryOver(office, people[name], certification, { validThrough: '2026-07-20' })
  }
  const ids: string[] = []
  const make = async (path: string, body: object) => {
    const { id } = await office.post(path, body)
    ids.push(id)
    return id
  }
  const { candidate: candidateId, late, sponsor: sponsorId, grader: graderId, away } = people
  for (const id of [candidateId, late]) {
    await make(`/api/soldiers/${id}/sponsorships`, { sponsorId, from: '2026-01-01' })
  }
  const sheet = { standard, standardVersion: 1, arm: 'sword' as const, candidateId, sponsorId, graderId }
  const put = async (more: Pick<SheetInput, 'startedAt' | 'finishedAt'> & Partial<SheetInput>) => {
    const id = randomUUID()
    ids.push(id)
    await putSheet(office, { ...sheet, ...GO_MARKS, ...more }, id)
    return id
  }
  const noGo = await put({ ...times('2026-06-03'), ...NO_GO_MARKS })
  await put({ ...times('2026-06-04', 11), candidateId: late, ...NO_GO_MARKS })
  const held = await put({
    ...times('2026-06-05'),
    conditions: { uniform: false, equipment: true, sponsorPresent: true },
  })
  await put({ ...times('2026-06-06'), purpose: 'practice', graderId: sponsorId })
  await put({ ...times('2026-06-03'), graderId: sponsorId, sponsorId: null, secondOf: noGo })
  await put({ ...times('2026-06-02'), void: { kind: 'weather' } })
  const misread = { ...sheet, ...times('2026-06-05', 12), ...NO_GO_MARKS }
  const proposed = { reason: 'Misread', sheet: misread }
  ids.push((await office.post(`/api/sheets/${held}/amendments`, proposed, 202)).id)
  await make(`/api/soldiers/${candidateId}/absences`, { from: '2026-06-14', through: '2026-06-16', kind: 'leave' })
  await make(`/api/soldiers/${away}/absences`, { from: '2026-06-01', kind: 'course' })
  await make('/api/suspensions', { soldierId: away, certification, from: '2026-06-10', reason: 'Inquiry' })
  await make(`/api/soldiers/${candidateId}/coaching-notes`, {
    on: '2026-06-10',
    standard,
    text: `Slower, ${familyName}`,
  })
  await make(`/api/soldiers/${graderId}/appointments`, { standard, from: '2026-01-01' })
  await make(`/api/soldiers/${candidateId}/reviews`, { standard, on: '2026-06-08', note: 'Seen' })
  await office.post(`/api/soldiers/${candidateId}/due-days`, {
    certification,
    standard,
    due: '2026-07-30',
    reason: 'Leave',
  })
  await office.tries('PUT', `/api/soldiers/${people.guide}/height`, { heightCm: 181 })
  const own = await make('/api/test-days', { on: '2026-06-22', unitId, place: `Hall of ${familyName}` })
  for (const [day, candidate] of [
    [own, candidateId],
    [testDay, late],
  ] as const) {
    const made = await office.post<{ items: { id: string }[] }>(`/api/test-days/${day}/slots`, {
      from: '08:00',
      to: '09:00',
      minutes: 30,
      graderIds: [graderId],
    })
    ids.push(...made.items.map(({ id }) => id))
    await make(`/api/test-days/${day}/bookings`, { candidateId: candidate, standard, slotId: made.items[0]!.id })
  }
  const running = randomUUID()
  ids.push(running)
  await office.put(
    `/api/running-tests/${running}`,
    {
      testDayId: testDay,
      candidateId: late,
      standard,
      graderId,
      startedAt: '2026-06-15T11:50:00Z',
      state: 'running',
      calls: 9,
      callsDone: 1,
      go: 0,
      noGo: 0,
    },
    204,
  )
  const rehearsals = [{ startsAt: '2026-06-28T10:00:00Z', endsAt: '2026-06-28T11:00:00Z' }]
  await make('/api/ceremonies', {
    title: `Guard of ${familyName}`,
    unitId,
    startsAt: '2026-06-29T10:00:00Z',
    endsAt: '2026-06-29T11:00:00Z',
    posts: [{ title: 'Guide', row: 1, place: 1, certification, soldierId: people.guide }],
    rehearsals,
    alternates: [people.alternate],
  })
  const practice = { ...sheet, ...GO_MARKS, ...times('2026-06-11'), purpose: 'practice', graderId: sponsorId }
  const rosterNumbers = names.map((_, index) => `${prefix}${index}`)
  return { unitId, people, ids, rosterNumbers, familyName, practice }
}

/** What was once between the two: an old sponsorship, a booking that was cancelled. */
async function entangle({ office, standard, testDay }: Kin, a: Platoon, b: Platoon): Promise<void> {
  const old = { sponsorId: a.people.sponsor, from: '2025-01-01', to: '2025-12-31' }
  b.ids.push((await office.post(`/api/soldiers/${b.people.candidate}/sponsorships`, old)).id)
  const booking = { candidateId: b.people.guide, standard, graderId: a.people.grader }
  const { id } = await office.post(`/api/test-days/${testDay}/bookings`, booking)
  await office.post(`/api/bookings/${id}/cancel`, { reason: 'Storm' }, 200)
  b.ids.push(id)
}
