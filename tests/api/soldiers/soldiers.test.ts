import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Soldier, SoldierDetail } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver, makeCertification, makeSoldier, makeStandard, makeUnit } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { readStatuses } from '../../support/read-statuses.ts'

let test: TestApp
let unitId: string
beforeAll(async () => {
  test = await buildTestApp()
  unitId = await makeUnit(test.office)
})
afterAll(() => test.close())

const NOBODY = '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11'
const body = (more: object = {}) => ({
  rosterNumber: 'C-001',
  familyName: 'Marsh',
  givenName: 'Ada',
  grade: 'SSG',
  arms: ['sword', 'rifle'],
  unitId,
  from: '2026-01-01',
  ...more,
})
const change = (id: string, what: object) => test.office.post<Soldier>(`/api/soldiers/${id}/changes`, what, 200)
const asOf = (id: string, day: string) => test.office.get<SoldierDetail>(`/api/soldiers/${id}?asOf=${day}`)

describe('a soldier', () => {
  it('is created with an id and read as given', async () => {
    const created = await test.office.post('/api/soldiers', body())
    expect(Object.keys(created)).toEqual(['id'])
    const { from, ...given } = body()
    const { id } = created
    expect(await test.office.get(`/api/soldiers/${id}`)).toEqual({
      id,
      ...given,
      removedAt: null,
      joined: from,
      left: null,
      periods: [{ from, through: null, grade: 'SSG', arms: ['sword', 'rifle'], unitId }],
      sponsors: [],
      candidates: [],
      appointments: [],
      reviews: [],
      withdrawals: [],
      awards: [],
      suspensions: [],
    })
  })

  it('has a roster number of their own, also when two are entered at once', async () => {
    const problem = await test.office.refused(409, 'POST', '/api/soldiers', body())
    expect(problem.type).toBe('urn:reviewstand:problem:roster-number-used')
    const answers = await Promise.all(
      Array.from({ length: 6 }, () => test.office.tries('POST', '/api/soldiers', body({ rosterNumber: 'C-002' }))),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409, 409, 409])
  })

  it('is refused with what they must not be', async () => {
    const wrong: [object, string][] = [
      [{ rosterNumber: ' ' }, '/rosterNumber'],
      [{ familyName: '' }, '/familyName'],
      [{ givenName: null }, '/givenName'],
      [{ grade: 'Staff Sergeant' }, '/grade'],
      [{ arms: 'sword' }, '/arms'],
      [{ arms: ['a b'] }, '/arms/0'],
      [{ unitId: NOBODY }, '/unitId'],
      [{ from: '2026-02-30' }, '/from'],
      [{ from: undefined }, '/from'],
    ]
    for (const [what, pointer] of wrong) {
      const sent = body({ rosterNumber: 'wrong', ...what })
      expect((await test.office.refused(422, 'POST', '/api/soldiers', sent)).errors).toMatchObject([{ pointer }])
    }
  })
})

describe('what changes about a soldier', () => {
  it('holds from its day on, and each day shows what held on it', async () => {
    const other = await makeUnit(test.office)
    const id = await makeSoldier(test.office, unitId, { from: '2026-01-01', grade: 'SGT', arms: ['sword'] })
    expect(await change(id, { from: '2026-03-01', unitId: other })).toMatchObject({ id, unitId: other, grade: 'SGT' })
    await change(id, { from: '2026-04-01', grade: 'SSG' })
    await change(id, { from: '2026-05-01', arms: [] })
    await change(id, { from: '2026-06-01', left: 'separated' })
    const seen = async (day: string) => {
      const { unitId, grade, arms, left } = await asOf(id, day)
      return [unitId, grade, arms, left]
    }
    expect(await seen('2026-02-28')).toEqual([unitId, 'SGT', ['sword'], null])
    expect(await seen('2026-03-01')).toEqual([other, 'SGT', ['sword'], null])
    expect(await seen('2026-04-30')).toEqual([other, 'SSG', ['sword'], null])
    expect(await seen('2026-05-31')).toEqual([other, 'SSG', [], null])
    expect(await seen('2026-06-01')).toEqual([null, 'SSG', [], { on: '2026-06-01', kind: 'separated' }])
    expect(await seen('2025-12-31')).toEqual([null, 'SGT', ['sword'], null])
  })

  it('in the past runs through to today', async () => {
    const id = await makeSoldier(test.office, unitId, { from: '2026-01-01', grade: 'SGT' })
    await change(id, { from: '2026-05-01', arms: ['rifle'] })
    await change(id, { from: '2026-02-01', grade: 'SSG' })
    expect(await asOf(id, '2026-06-01')).toMatchObject({ grade: 'SSG', arms: ['rifle'] })
    const joining = { from: '2025-06-01', unitId, grade: 'CPL', arms: ['sword'] }
    await change(id, joining)
    expect(await asOf(id, '2025-12-31')).toMatchObject({ grade: 'CPL', joined: '2025-06-01' })
  })

  it('is a return after leaving, with a unit', async () => {
    const id = await makeSoldier(test.office, unitId, { from: '2026-01-01' })
    await change(id, { from: '2026-02-01', left: 'transferred' })
    await change(id, { from: '2026-03-01', unitId })
    const { periods } = await asOf(id, '2026-06-01')
    expect(periods.map(({ from, through }) => [from, through])).toEqual([
      ['2026-01-01', '2026-01-31'],
      ['2026-03-01', null],
    ])
    expect(await asOf(id, '2026-02-15')).toMatchObject({ unitId: null, left: { on: '2026-02-01' } })
    expect(await asOf(id, '2026-03-01')).toMatchObject({ unitId, left: null })
  })

  it('is refused where it cannot be', async () => {
    const id = await makeSoldier(test.office, unitId, { from: '2026-01-01' })
    const wrong: [object, string][] = [
      [{ from: '2026-02-01' }, ''],
      [{ from: '2026-02-01', left: 'transferred', unitId }, '/unitId'],
      [{ from: '2026-02-01', left: 'deserted' }, '/left'],
      [{ from: '2026-02-01', unitId: NOBODY }, '/unitId'],
      [{ from: '2025-02-01', grade: 'SSG' }, '/from'],
      [{ from: '2026-01-01', left: 'other' }, '/from'],
    ]
    for (const [what, pointer] of wrong) {
      const problem = await test.office.refused(422, 'POST', `/api/soldiers/${id}/changes`, what)
      expect(problem.errors, JSON.stringify(what)).toMatchObject([{ pointer }])
    }
    expect((await asOf(id, '2026-06-01')).periods).toHaveLength(1)
  })
})

describe('the roster', () => {
  it('comes in pages, by number, each once, as of a day, of a unit and those below it', async () => {
    const top = await makeUnit(test.office)
    const below = await makeUnit(test.office, { kind: 'company', parentId: top })
    const ids = []
    for (let count = 0; count < 7; count++) ids.push(await makeSoldier(test.office, count % 2 ? top : below))
    await change(ids[0]!, { from: '2026-03-01', left: 'other' })
    const roster = async (unit: string, limit: number, day: string) =>
      (await pagesOf<Soldier>(test.office, `/api/soldiers?unitId=${unit}&asOf=${day}`, limit)).map(({ id }) => id)
    for (const limit of [1, 3, 500]) {
      expect(await roster(top, limit, '2026-02-28')).toEqual(ids)
      expect(await roster(top, limit, '2026-03-01')).toEqual(ids.slice(1))
      expect(await roster(below, limit, '2026-03-01')).toEqual([ids[2], ids[4], ids[6]])
    }
    const all = await pagesOf<Soldier>(test.office, '/api/soldiers', 2)
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length)
    expect(all.map(({ rosterNumber }) => rosterNumber)).toEqual(all.map(({ rosterNumber }) => rosterNumber).sort())
    expect(Object.keys(all[0]!).sort()).toEqual(
      ['arms', 'familyName', 'givenName', 'grade', 'id', 'joined', 'left', 'rosterNumber', 'unitId'].sort(),
    )
  })

  it('is searched by parts of number and names', async () => {
    const id = await makeSoldier(test.office, unitId, { rosterNumber: 'Q-77', familyName: 'Quillon', givenName: 'Bea' })
    const found = async (q: string) =>
      (await test.office.get<{ items: Soldier[] }>(`/api/soldiers?q=${encodeURIComponent(q)}`)).items.map(
        (one) => one.id,
      )
    for (const q of ['Q-77', 'quil', 'bea QUIL', 'Quillon, Bea']) expect(await found(q)).toEqual([id])
    expect(await found('Quillon Zed')).toEqual([])
  })
})

describe('how many the roster has', () => {
  it('is as many as its pages list, of everybody or of those asked for', async () => {
    await makeSoldier(test.office, unitId, { from: '2027-01-01' })
    for (const query of ['', '?asOf=2020-01-01', `?unitId=${unitId}`, '?q=Marsh', '?grade=SGT', '?strength=serving']) {
      const { count } = await test.office.get<{ count: number }>(`/api/soldiers/count${query}`)
      expect([query, count]).toEqual([query, (await pagesOf(test.office, `/api/soldiers${query}`, 500)).length])
    }
  })
})

describe('the status of a soldier', () => {
  it('is told for each certification that fits that day, in pages', async () => {
    const standard = await makeStandard(test.office)
    const any = await makeCertification(test.office, { standards: [standard] })
    const sword = await makeCertification(test.office, { standards: [standard], arms: ['sword', 'saber'] })
    const rifle = await makeCertification(test.office, { standards: [standard], arms: ['rifle'] })
    const id = await makeSoldier(test.office, unitId, { arms: ['sword'] })
    await change(id, { from: '2026-03-01', arms: ['rifle'] })
    await carryOver(test.office, id, any, { awardedOn: '2026-01-10', validThrough: '2026-02-10' })
    const codes = async (day: string) => (await readStatuses(test.office, id, day)).map((one) => one.certification)
    expect(await codes('2026-02-28')).toEqual([any, sword].sort())
    expect(await codes('2026-03-01')).toEqual([any, rifle].sort())
    const statuses = await readStatuses(test.office, id, '2026-02-10')
    expect(statuses.find((one) => one.certification === any)).toEqual({
      certification: any,
      status: 'certified',
      awardedOn: '2026-01-10',
      validThrough: '2026-02-10',
      suspended: false,
      toward: [],
      retestOpen: [],
    })
    expect(statuses.find((one) => one.certification === sword)).toEqual({
      certification: sword,
      status: 'no test yet',
      awardedOn: null,
      validThrough: null,
      suspended: false,
      toward: [],
      retestOpen: [],
    })
    expect(await pagesOf(test.office, `/api/soldiers/${id}/status?asOf=2026-02-10`, 1)).toEqual(statuses)
  })

  it('is that of today in the zone of the unit', async () => {
    const own = await buildTestApp({ now: '2026-06-15T09:00:00Z' })
    const { office } = own
    const code = await makeCertification(office, { standards: [await makeStandard(office)] })
    const certifiedOnThe15th = async (timeZone: string) => {
      const id = await makeSoldier(office, await makeUnit(office, { timeZone }))
      await carryOver(office, id, code, { awardedOn: '2026-06-15', validThrough: '2026-06-15' })
      return id
    }
    const people = [await certifiedOnThe15th('Pacific/Honolulu'), await certifiedOnThe15th('Pacific/Kiritimati')]
    const statuses = async (now: string) => {
      own.clock.now = new Date(now)
      return Promise.all(people.map(async (id) => (await readStatuses(office, id))[0]!.status))
    }
    // UTC-10 and UTC+14, all year round (tz database).
    expect(await statuses('2026-06-15T09:00:00Z')).toEqual(['no test yet', 'certified'])
    expect(await statuses('2026-06-15T09:59:59Z')).toEqual(['no test yet', 'certified'])
    expect(await statuses('2026-06-15T10:00:00Z')).toEqual(['certified', 'lapsed'])
    await own.close()
  })
})
