import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CeremonyDetail, CeremonySummary } from '../../../server/contract/ceremonies/ceremonies.ts'
import type { PostCandidate } from '../../../server/contract/ceremonies/manning.ts'
import type { Outlook, OutlookPage } from '../../../server/contract/ceremonies/outlooks.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { countRows } from '../../support/count-rows.ts'
import { carryOver, makeCertification, makeSoldier, makeStandard, makeUnit, putSheet } from '../../support/factories.ts'
import { GO_MARKS } from '../../support/sheet-body.ts'

const DAY = '2026-07-04'
let test: TestApp
let office: Client
let leader: Client
let battalion: string
let platoon: string
let otherPlatoon: string
let standard: string
let certification: string

beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  office = test.office
  battalion = await makeUnit(office, { name: 'Battalion' })
  platoon = await makeUnit(office, { kind: 'platoon', parentId: battalion })
  otherPlatoon = await makeUnit(office, { kind: 'platoon', parentId: battalion })
  standard = await makeStandard(office)
  certification = await makeCertification(office, { standards: [standard] })
  leader = await test.signedIn({ name: 'leader', roles: ['leader'], unitId: platoon })
})
afterAll(() => test.close())

const post = (place: number, more: object = {}) => ({ title: `Post ${place}`, row: 1, place, certification, ...more })
const plan = (more: object = {}) => ({
  title: 'Review',
  unitId: battalion,
  reportsAt: `${DAY}T09:00:00Z`,
  startsAt: `${DAY}T10:00:00Z`,
  endsAt: `${DAY}T11:00:00Z`,
  minutesBefore: 30,
  minutesAfter: 30,
  posts: [post(1), post(2), post(3)],
  ...more,
})
const make = async (more: object = {}, by = office) => (await by.post('/api/ceremonies', plan(more))).id
const read = (id: string, by = office) => by.get<CeremonyDetail>(`/api/ceremonies/${id}`)
const certified = async (unitId = platoon, more: object = {}) => {
  const id = await makeSoldier(office, unitId, more)
  await carryOver(office, id, certification)
  return id
}
const whyNot = (ceremony: CeremonyDetail, at = 0) => ceremony.formation[at]!.soldier!.whyNot
const named = (ceremony: CeremonyDetail) => ceremony.formation.map(({ soldier }) => soldier?.id ?? null)

describe('a plan', () => {
  it('holds times, rehearsals and alternates with the posts they could take', async () => {
    const [stands, stepsIn, cannot] = [await certified(), await certified(), await makeSoldier(office, platoon)]
    const rehearsal = { startsAt: '2026-07-02T13:00:00Z', endsAt: '2026-07-02T14:00:00Z', place: 'Hall' }
    const posts = [post(1, { soldierId: stands }), post(2, { grades: ['CPL'] }), post(3)]
    const id = await make({ posts, rehearsals: [rehearsal], alternates: [stepsIn, cannot], notes: 'White gloves' })
    const ceremony = await read(id)
    expect(ceremony).toMatchObject({
      reportsAt: '2026-07-04T09:00:00Z',
      notes: 'White gloves',
      may: 'plan',
      posts: 3,
      filled: 1,
      rehearsals: [{ ...rehearsal, day: '2026-07-02' }],
    })
    const [first, second] = ceremony.alternates.map(({ soldier }) => soldier!)
    expect(first).toMatchObject({ id: stepsIn, whyNot: [] })
    expect(first!.canTake).toEqual([ceremony.formation[0]!.id, ceremony.formation[2]!.id])
    expect(second).toMatchObject({
      id: cannot,
      canTake: [],
      whyNot: [{ reason: 'not certified', missing: [standard] }],
    })
  })

  it('is changed: posts change places, go and come; whoever is named to one that stays remains', async () => {
    const [one, two] = [await certified(), await certified()]
    const id = await make({ posts: [post(1, { soldierId: one }), post(2, { soldierId: two }), post(3)] })
    const [first, second] = (await read(id)).formation.map((each) => each.id)
    const posts = [post(2, { id: first }), post(1, { id: second, title: 'Guide' }), post(4, { soldierId: null })]
    const answer = await office.put(`/api/ceremonies/${id}`, { ...plan({ posts }), version: 1, title: 'Parade' }, 200)
    expect(answer).toEqual({ version: 2 })
    const after = await read(id)
    expect(after).toMatchObject({ title: 'Parade', version: 2 })
    expect(after.formation.map(({ title, place, soldier }) => [title, place, soldier?.id ?? null])).toEqual([
      ['Guide', 1, two],
      ['Post 2', 2, one],
      ['Post 4', 4, null],
    ])
  })

  it('is not overwritten by who opened it before somebody else changed it', async () => {
    const id = await make()
    await office.put(`/api/ceremonies/${id}`, { ...plan(), version: 1, title: 'Mine' }, 200)
    const before = await countRows(test)
    const { formation } = await read(id)
    const late: [method: 'PUT' | 'POST', path: string, body: object][] = [
      ['PUT', '', { ...plan(), title: 'Late' }],
      ['POST', '/name', { names: [{ postId: formation[0]!.id, soldierId: null }] }],
      ['PUT', '/alternates', { alternates: [] }],
      ['POST', '/cancel', { reason: 'Late' }],
    ]
    for (const [method, path, body] of late) {
      const problem = await office.refused(409, method, `/api/ceremonies/${id}${path}`, { ...body, version: 1 })
      expect(problem.type).toBe('urn:reviewstand:problem:stale-ceremony')
    }
    expect(await countRows(test)).toEqual(before)
    expect(await read(id)).toMatchObject({ title: 'Mine', version: 2 })
  })

  it('is refused where it cannot be, and says where', async () => {
    const id = await make()
    const foreign = (await read(await make())).formation[0]!.id
    const twice = (await read(id)).formation[0]!.id
    const wrong: [object, string][] = [
      [{ reportsAt: `${DAY}T10:30:00Z` }, '/reportsAt'],
      [{ rehearsals: [{ startsAt: `${DAY}T10:00:00Z`, endsAt: `${DAY}T10:00:00Z` }] }, '/rehearsals/0/endsAt'],
      [{ posts: [post(1, { minHeightCm: 190, maxHeightCm: 165 })] }, '/posts/0/maxHeightCm'],
      [{ posts: [post(1, { id: foreign })] }, '/posts/0/id'],
      [{ posts: [post(1, { id: twice }), post(2, { id: twice })] }, '/posts/1/id'],
    ]
    for (const [change, pointer] of wrong) {
      const problem = await office.refused(422, 'PUT', `/api/ceremonies/${id}`, { ...plan(change), version: 1 })
      expect(problem.errors, JSON.stringify(change)).toMatchObject([{ pointer }])
    }
  })

  it('is called off with a reason, which frees its people; nothing of it changes any more', async () => {
    const busy = await certified()
    const first = await make({ posts: [post(1, { soldierId: busy })] })
    const second = await make({ posts: [post(1, { soldierId: busy })] })
    expect(whyNot(await read(second))).toMatchObject([{ reason: 'other duty', kind: 'ceremony', title: 'Review' }])
    await office.post(`/api/ceremonies/${first}/cancel`, { version: 1, reason: 'Storm' }, 200)
    expect(whyNot(await read(second))).toEqual([])
    expect(await read(first)).toMatchObject({ cancelReason: 'Storm', may: 'look' })
    const ids = async (query: string) =>
      (await office.get<{ items: CeremonySummary[] }>(`/api/ceremonies?limit=500${query}`)).items.map(({ id }) => id)
    expect(await ids('')).not.toContain(first)
    expect(await ids('&cancelled=with')).toContain(first)
    const problem = await office.refused(409, 'PUT', `/api/ceremonies/${first}`, { ...plan(), version: 2 })
    expect(problem.type).toBe('urn:reviewstand:problem:cancelled')
    const [entry] = await test.sql<{ reason: string }>(
      `SELECT reason FROM record_entry WHERE action = 'ceremony.cancelled' AND subject_id = $1`,
      [first],
    )
    expect(entry).toEqual({ reason: 'Storm' })
  })
})

describe('why somebody may not stand', () => {
  /** Named to a ceremony of their own, which is called off after, so that the next finds nobody busy by it. */
  const stand = async (soldierId: string, more: object = {}) => {
    const id = await make({ posts: [post(1, { soldierId, ...more })] })
    const reasons = whyNot(await read(id))
    await office.post(`/api/ceremonies/${id}/cancel`, { version: 1, reason: 'Only asked' }, 200)
    return reasons
  }

  it('other duties, with the time around them', async () => {
    const [early, touching] = [await certified(), await certified()]
    const morning = { startsAt: `${DAY}T07:00:00Z`, reportsAt: null, minutesBefore: 0, minutesAfter: 0 }
    await make({ ...morning, endsAt: `${DAY}T08:31:00Z`, title: 'Dawn', posts: [post(1, { soldierId: early })] })
    await make({ ...morning, endsAt: `${DAY}T08:30:00Z`, posts: [post(1, { soldierId: touching })] })
    expect(await stand(early)).toEqual([
      {
        reason: 'other duty',
        kind: 'ceremony',
        title: 'Dawn',
        startsAt: `${DAY}T07:00:00.000Z`,
        endsAt: `${DAY}T08:31:00.000Z`,
      },
    ])
    expect(await stand(touching)).toEqual([])
  })

  it('a test slot of their own, or one in which they grade', async () => {
    const [tested, grading] = [await certified(), await certified()]
    const { id: testDay } = await office.post('/api/test-days', { on: DAY, unitId: battalion, place: 'Hall' })
    const startsAt = `${DAY}T09:40:00Z`
    const body = { candidateId: tested, standard, graderId: grading, startsAt }
    await office.post(`/api/test-days/${testDay}/bookings`, body)
    expect(await stand(tested)).toMatchObject([{ reason: 'other duty', kind: 'test' }])
    expect(await stand(grading)).toMatchObject([{ reason: 'other duty', kind: 'grading' }])
  })

  it('an absence, a height outside the band or not known', async () => {
    const [away, tall] = [await certified(), await certified()]
    await test.sql(`INSERT INTO absence (soldier_id, from_day, through_day, kind) VALUES ($1, $2, NULL, 'leave')`, [
      away,
      DAY,
    ])
    expect(await stand(away)).toEqual([{ reason: 'absent', kind: 'leave', from: DAY, through: null, at: 'ceremony' }])
    expect(await stand(tall, { maxHeightCm: 190 })).toEqual([{ reason: 'height not known' }])
    await leader.put(`/api/soldiers/${tall}/height`, { heightCm: 196 }, 200)
    expect(await stand(tall, { maxHeightCm: 190 })).toEqual([{ reason: 'outside the height band', heightCm: 196 }])
    expect(await stand(tall)).toEqual([])
  })

  it('a test of that very day that ends after they report', async () => {
    const [sponsorId, graderId] = [await certified(), await certified()]
    const certifiedAt = async (time: string, before?: { awardedOn: string; validThrough: string }) => {
      const candidateId = await makeSoldier(office, platoon)
      if (before) await carryOver(office, candidateId, certification, before)
      await office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId, from: '2026-01-01' })
      const { state } = await putSheet(office, {
        standard,
        standardVersion: 1,
        arm: 'sword',
        candidateId,
        sponsorId,
        graderId,
        startedAt: '2026-06-15T07:00:00Z',
        finishedAt: `2026-06-15T${time}:00Z`,
        ...GO_MARKS,
      })
      expect(state).toBe('counted')
      return candidateId
    }
    const today = {
      reportsAt: '2026-06-15T09:00:00Z',
      startsAt: '2026-06-15T10:00:00Z',
      endsAt: '2026-06-15T11:00:00Z',
    }
    const onTheDay = async (soldierId: string) =>
      whyNot(await read(await make({ ...today, posts: [post(1, { soldierId })] })))
    expect(await onTheDay(await certifiedAt('09:00'))).toEqual([])
    expect(await onTheDay(await certifiedAt('09:30'))).toEqual([
      { reason: 'test ends too late', finishedAt: '2026-06-15T09:30:00.000Z' },
    ])
    const renewed = await certifiedAt('09:45', { awardedOn: '2025-06-15', validThrough: '2026-06-15' })
    expect(await onTheDay(renewed)).toEqual([])
  })
})

describe('naming', () => {
  it('moves and swaps at once, and refuses one soldier twice', async () => {
    const [one, two] = [await certified(), await certified()]
    const id = await make({ posts: [post(1, { soldierId: one }), post(2, { soldierId: two }), post(3)] })
    const [first, second, third] = (await read(id)).formation.map((each) => each.id)
    const name = (version: number, names: [string | undefined, string | null][]) => ({
      version,
      names: names.map(([postId, soldierId]) => ({ postId, soldierId })),
    })
    const swap = name(1, [
      [first, two],
      [second, one],
    ])
    await office.post(`/api/ceremonies/${id}/name`, swap, 200)
    expect(named(await read(id))).toEqual([two, one, null])
    const problem = await office.refused(422, 'POST', `/api/ceremonies/${id}/name`, name(2, [[third, one]]))
    expect(problem.type).toBe('urn:reviewstand:problem:named-twice')
    expect(named(await read(id))).toEqual([two, one, null])
  })

  it('a leader names own people to a ceremony of the unit above, and touches nobody of another unit', async () => {
    const [mine, theirs, other] = [await certified(), await certified(otherPlatoon), await certified(otherPlatoon)]
    const posts = [post(1, { soldierId: theirs, title: 'Theirs' }), post(2)]
    const id = await make({ posts, alternates: [other] })
    const seen = await read(id, leader)
    expect(seen).toMatchObject({
      may: 'name',
      filled: 1,
      formation: [{ otherUnit: true, filled: true, soldier: null }, {}],
    })
    for (const hidden of [theirs, other]) expect(JSON.stringify(seen)).not.toContain(hidden)
    const [first, second] = seen.formation.map((each) => each.id)
    const name = (postId: string | undefined, soldierId: string | null, version = 1) => ({
      version,
      names: [{ postId, soldierId }],
    })
    const path = `/api/ceremonies/${id}/name`
    expect((await leader.refused(422, 'POST', path, name(first, mine))).type).toMatch(/other-unit$/)
    expect((await leader.refused(422, 'POST', path, name(second, other))).type).toMatch(/unknown-person$/)
    await leader.refused(403, 'PUT', `/api/ceremonies/${id}`, { ...plan(), version: 1 })
    await leader.refused(403, 'POST', `/api/ceremonies/${id}/cancel`, { version: 1, reason: 'No' })
    await leader.post(path, name(second, mine), 200)
    const alternates = `/api/ceremonies/${id}/alternates`
    expect((await leader.refused(422, 'PUT', alternates, { version: 2, alternates: [] })).type).toMatch(/other-unit$/)
    const own = await certified()
    const both = [{ id: seen.alternates[0]!.id }, { soldierId: own }]
    await leader.put(alternates, { version: 2, alternates: both }, 200)
    const after = await read(id)
    expect(named(after)).toEqual([theirs, mine])
    expect(after.alternates.map(({ soldier }) => soldier?.id)).toEqual([other, own])
  })
})

describe('who could take a post', () => {
  it('lists who can stand, who stood least first; a search finds others with what speaks against them', async () => {
    const unitId = await makeUnit(office, { parentId: battalion })
    const [often, seldom, lapsed] = [
      await certified(unitId, { rosterNumber: 'Z1' }),
      await certified(unitId, { rosterNumber: 'Z2' }),
      await makeSoldier(office, unitId, { rosterNumber: 'Z3' }),
    ]
    await make({
      startsAt: '2026-06-01T10:00:00Z',
      reportsAt: null,
      endsAt: '2026-06-01T11:00:00Z',
      posts: [post(1, { soldierId: often })],
    })
    const id = await make({ unitId })
    const path = `/api/ceremonies/${id}/posts/${(await read(id)).formation[0]!.id}/candidates`
    const list = (query = '') => office.get<{ items: PostCandidate[]; next: string | null }>(`${path}?${query}`)
    const { items } = await list()
    expect(items.map(({ soldierId, duties }) => [soldierId, duties])).toEqual([
      [seldom, 0],
      [often, 1],
    ])
    const page = await list('limit=1')
    expect((await list(`limit=1&after=${page.next}`)).items.map(({ soldierId }) => soldierId)).toEqual([often])
    expect((await list('q=z3')).items).toMatchObject([{ soldierId: lapsed, whyNot: [{ reason: 'not certified' }] }])
  })
})

describe('the outlook', () => {
  it('groups the people of a unit, and names the tests that would certify in time', async () => {
    const unitId = await makeUnit(office, { parentId: battalion })
    const free = await certified(unitId)
    const named = await certified(unitId)
    const lapses = await makeSoldier(office, unitId)
    await carryOver(office, lapses, certification, { awardedOn: '2025-06-20', validThrough: '2026-06-20' })
    const newcomer = await makeSoldier(office, unitId)
    const booked = await makeSoldier(office, unitId)
    const id = await make({ unitId, posts: [post(1, { soldierId: named }), post(2)] })
    const groups = async () => {
      const { items } = await office.get<Outlook>(`/api/ceremonies/${id}/outlook?unitId=${unitId}`)
      return new Map(items.map((item) => [item.soldierId, item]))
    }
    const before = await groups()
    expect([free, named, lapses, newcomer].map((one) => before.get(one)!.group)).toEqual([
      'can stand',
      'named',
      'lapses before',
      'cannot',
    ])
    const { id: testDay } = await office.post('/api/test-days', { on: '2026-06-25', unitId: battalion })
    await office.post(`/api/test-days/${testDay}/bookings`, { candidateId: booked, standard })
    const after = await groups()
    expect(after.get(newcomer)).toMatchObject({
      group: 'could make it',
      way: [{ standard, on: '2026-06-25', booked: false }],
    })
    expect(after.get(booked)).toMatchObject({ group: 'could make it', way: [{ booked: true }] })
    expect(after.get(lapses)).toMatchObject({ group: 'lapses before', way: [{ on: '2026-06-25' }] })
  })

  it('names no test day of a foreign tree, to nobody', async () => {
    const newcomer = await makeSoldier(office, platoon)
    const id = await make({ posts: [post(1)] })
    await office.post('/api/test-days', { on: '2026-06-22', unitId: await makeUnit(office) })
    await office.post('/api/test-days', { on: '2026-06-23', unitId: platoon })
    for (const client of [office, leader]) {
      const { items } = await client.get<Outlook>(`/api/ceremonies/${id}/outlook?unitId=${platoon}`)
      const { group, way } = items.find(({ soldierId }) => soldierId === newcomer)!
      expect(group).toBe('could make it')
      expect(way).toMatchObject([{ on: '2026-06-23' }])
    }
  })

  it('shows a leader only people of their own unit', async () => {
    const [mine, theirs] = [await certified(), await certified(otherPlatoon)]
    await make({ posts: [post(1, { soldierId: theirs })] })
    const { items, unitId } = await leader.get<OutlookPage>('/api/outlooks?limit=20')
    expect(unitId).toBe(platoon)
    const text = JSON.stringify(items)
    expect(text).toContain(mine)
    expect(text).not.toContain(theirs)
    expect(new Set(items.flatMap(({ people }) => people.map((one) => one.unitId)))).toEqual(new Set([platoon]))
  })
})
