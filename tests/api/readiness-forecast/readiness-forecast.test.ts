import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Forecasts } from '../../../server/contract/ability/forecasts.ts'
import type { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import type {
  ForecastDates,
  PastReadiness,
  ReadinessForecast,
  WhatIf,
} from '../../../server/contract/readiness-forecast/readiness-forecast.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, makeSoldier, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { solvedPlan } from '../../support/plans/solved-plan.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let app: TestApp
let setting: TestSetting
let leader: Client
/** Certified until the end of June, with nothing booked. */
let lapsing: string
/** NO-GO in May, booked for a retest on 20 June. */
let booked: string

const forecast = (on: string, client = app.office) =>
  client.get<ReadinessForecast>(
    `/api/readiness/forecast?unitId=${setting.unitId}&certification=${setting.certification}&on=${on}`,
  )

/** On 15 June 2026: a sponsor and a grader certified through the year, one who lapses, one booked, one who has done nothing. */
beforeAll(async () => {
  app = await buildTestApp()
  setting = await makeTestSetting(app.office)
  const { office } = app
  lapsing = await makeSoldier(office, setting.unitId)
  await carryOver(office, lapsing, setting.certification, { validThrough: '2026-06-30' })
  booked = (await makeTestSetting(office, setting)).candidateId
  await putSheet(office, setting.sheet({ candidateId: booked, ...times('2026-05-20'), ...NO_GO_MARKS }))
  const testDay = (await office.post('/api/test-days', { on: '2026-06-20', unitId: setting.unitId, place: 'Hall' })).id
  await office.post(`/api/test-days/${testDay}/bookings`, { candidateId: booked, standard: setting.standard })
  leader = await app.signedIn({ name: 'leader', roles: ['leader'], unitId: setting.unitId })
})
afterAll(() => app.close())

describe('readiness on a day to come', () => {
  test('counts lapses for certain, and a booked retest by the chance to pass it', async () => {
    const [own] = (await app.office.get<Forecasts>(`/api/soldiers/${booked}/forecasts`)).items
    const before = await forecast('2026-06-19')
    expect(before).toMatchObject({ required: 5, expected: 3, low: 3, high: 3, basis: 'record', booked: 0, lapsing: 0 })
    const june = await forecast('2026-06-30', leader)
    expect(june).toMatchObject({ required: 5, certifiedNow: 3, booked: 1, lapsing: 0, need: null })
    expect(june.expected).toBeCloseTo(3 + own!.pass, 2)
    expect(june.atLeast.map(({ n }) => n)).toEqual([1, 2, 3, 4, 5])
    expect(june.atLeast.map(({ chance }) => chance)).toEqual([1, 1, 1, expect.closeTo(own!.pass, 2), 0])
    expect(june.basis).toBe(own!.basis)
    const july = await forecast('2026-07-01')
    expect(july.lapsing).toBe(1)
    expect(july.expected).toBeCloseTo(june.expected - 1, 12)
  })

  test('somebody absent on the day of the test, or suspended, is not counted on', async () => {
    const absence = { from: '2026-06-18', through: '2026-06-25', kind: 'leave' }
    const { id } = await app.office.post(`/api/soldiers/${booked}/absences`, absence)
    expect(await forecast('2026-06-30')).toMatchObject({ expected: 3, booked: 0, basis: 'record' })
    expect((await app.office.tries('DELETE', `/api/absences/${id}`)).status).toBeLessThan(300)
    const suspension = {
      soldierId: setting.sponsorId,
      certification: setting.certification,
      from: '2026-06-15',
      reason: 'x',
    }
    const { id: suspended } = await app.office.post('/api/suspensions', suspension)
    expect((await forecast('2026-06-30')).expected).toBeLessThan(3)
    await app.office.post(`/api/suspensions/${suspended}/lift`, { on: '2026-06-15', reason: 'x' }, 200)
    expect((await forecast('2026-06-30')).expected).toBeGreaterThan(3)
  })

  test('says how likely there are enough for the ceremonies of the day, those at one time together', async () => {
    const posts = (many: number) =>
      Array.from({ length: many }, (_, place) => ({
        title: `Post ${place}`,
        row: 1,
        place: place + 1,
        certification: setting.certification,
      }))
    const ceremony = (from: string, to: string, many: number) =>
      app.office.post('/api/ceremonies', {
        title: 'Review',
        unitId: setting.unitId,
        startsAt: `2026-06-28T${from}:00Z`,
        endsAt: `2026-06-28T${to}:00Z`,
        posts: posts(many),
      })
    await ceremony('10:00', '11:00', 2)
    await ceremony('10:30', '11:30', 2)
    await ceremony('15:00', '16:00', 3)
    const day = await forecast('2026-06-28')
    expect(day.need).toMatchObject({ posts: 4, ceremonies: [{ posts: 2 }, { posts: 2 }, { posts: 3 }] })
    expect(day.need!.chance).toBe(day.atLeast.find(({ n }) => n === 4)!.chance)
    const { items } = await leader.get<ForecastDates>('/api/readiness/forecast/dates')
    const { atLeast: _, ...summary } = day
    expect(items).toEqual([summary])
  })

  test('is for the office, leaders and commanders, of their own units and days to come', async () => {
    const grader = await app.signedIn({ name: 'grader', roles: ['grader'], soldierId: setting.graderId })
    const path = `/api/readiness/forecast?certification=${setting.certification}&on=2026-06-30`
    await grader.refused(403, 'GET', path)
    const other = await makeTestSetting(app.office)
    await leader.refused(404, 'GET', `${path}&unitId=${other.unitId}`)
    expect((await leader.get<ReadinessForecast>(path)).required).toBe(5)
    expect((await app.office.get<ReadinessForecast>(path)).required).toBe(8)
    const over = await app.office.refused(422, 'GET', path.replace('06-30', '06-14'))
    expect(over.detail).toContain('2026-06-15')
    const unknown = await app.office.refused(422, 'GET', path.replace(setting.certification, 'nothing'))
    expect(unknown.detail).toContain('/api/certifications')
  })
})

describe('what if', () => {
  const suppose = (more: string) =>
    app.office.get<WhatIf>(
      `/api/readiness/forecast/what-if?unitId=${setting.unitId}&certification=${setting.certification}&on=2026-06-30${more}`,
    )

  test('a test day more is given to who lacks the test, and fewer slots take bookings away', async () => {
    const plain = await suppose('')
    expect(plain.after).toEqual(plain.before)
    const { atLeast: _, expected, ...before } = plain.before
    const june = await forecast('2026-06-30')
    expect({ ...before, expected: june.expected, atLeast: june.atLeast }).toEqual(june)
    // One test alone is averaged, several are worked out at the points of what is not known: as near as 256 points are.
    expect(Math.abs(expected - june.expected)).toBeLessThan(0.02)
    const more = await suppose(`&more=2026-06-22/${setting.standard}/5`)
    expect(more.before).toEqual(plain.before)
    expect(more.free).toBe(4) // Of five one is not certified and not booked.
    expect(more.after.booked).toBe(2)
    expect(more.after.expected).toBeGreaterThan(more.before.expected)
    const days = await app.office.get<{ items: { id: string; on: string }[] }>('/api/test-days?from=2026-06-01')
    const fewer = await suppose(`&fewer=${days.items.find(({ on }) => on === '2026-06-20')!.id}/1`)
    expect(fewer.after).toMatchObject({ booked: 0, expected: 3 })
    await app.office.refused(
      422,
      'GET',
      `/api/readiness/forecast/what-if?certification=${setting.certification}&on=2026-06-30&more=2026-07-22/${setting.standard}/5`,
    )
    await app.office.refused(
      400,
      'GET',
      `/api/readiness/forecast/what-if?certification=${setting.certification}&on=2026-06-30&more=soon`,
    )
  })
})

describe('what if, held against what comes when it is done', () => {
  let world: TestSetting
  const asked = (on: string) => `unitId=${world.unitId}&certification=${world.certification}&on=${on}`
  const forecastOf = (on: string) => app.office.get<ReadinessForecast>(`/api/readiness/forecast?${asked(on)}`)
  const whatIf = (on: string, more: string) =>
    app.office.get<WhatIf>(`/api/readiness/forecast/what-if?${asked(on)}${more}`)
  /** One test alone is averaged, several are worked out at points: expected values differ that much. */
  const alike = (one: ReadinessForecast, other: ReadinessForecast) => {
    const { atLeast: _, expected: __, low: ___, high: ____, need, ...facts } = one
    expect(other).toMatchObject(facts)
    expect(other.need?.posts).toBe(need?.posts)
    expect(Math.abs(other.expected - one.expected)).toBeLessThan(0.02)
  }

  beforeAll(async () => {
    world = await makeTestSetting(app.office)
    await putSheet(app.office, world.sheet({ ...times('2026-05-20'), ...NO_GO_MARKS }))
  })

  test('a ceremony moved is asked of on its new day, at the same time by the clock', async () => {
    const post = { title: 'Post', row: 1, place: 1, certification: world.certification }
    const ceremony = (on: string, from: string) => ({
      title: 'Review',
      unitId: world.unitId,
      startsAt: `${on}T${from}:00Z`,
      endsAt: `${on}T${from.replace(':00', ':45')}:00Z`,
      posts: [post, { ...post, place: 2 }],
    })
    const { id } = await app.office.post('/api/ceremonies', ceremony('2026-07-02', '10:00'))
    await app.office.post('/api/ceremonies', ceremony('2026-07-09', '10:00'))
    const { before, after } = await whatIf('2026-07-02', `&moved=${id}/2026-07-09`)
    expect(before).toMatchObject({ on: '2026-07-02', need: { posts: 2 } })
    expect(after).toMatchObject({ on: '2026-07-09', need: { posts: 4 } })
    await app.office.refused(
      422,
      'GET',
      `/api/readiness/forecast/what-if?${asked('2026-07-03')}&moved=${id}/2026-07-09`,
    )
    await app.office.refused(
      422,
      'GET',
      `/api/readiness/forecast/what-if?${asked('2026-07-02')}&moved=${id}/2026-06-01`,
    )
    const detail = await app.office.get<CeremonyDetail>(`/api/ceremonies/${id}`)
    const { version, formation } = detail
    const posts = formation.map(({ id: postId }, place) => ({ ...post, place: place + 1, id: postId }))
    const { posts: _, ...head } = ceremony('2026-07-09', '10:00')
    await app.office.put(`/api/ceremonies/${id}`, { ...head, version, posts }, 200)
    alike(await forecastOf('2026-07-09'), after)
  })

  test('a plan’s bookings, and then its grader away', async () => {
    const day = await app.office.post('/api/test-days', { on: '2026-06-24', unitId: world.unitId, place: 'Hall' })
    const slots = { from: '09:00', to: '10:00', minutes: 30, graderIds: [world.graderId] }
    await app.office.post(`/api/test-days/${day.id}/slots`, slots)
    const content = { kind: 'retests', unitId: world.unitId, from: '2026-06-15', to: '2026-07-15' }
    const { id } = await solvedPlan(app.office, content)
    const { before, after } = await whatIf('2026-06-30', `&plan=${id}`)
    expect(after.booked).toBe(before.booked + 1)
    expect(after.expected).toBeGreaterThan(before.expected)
    const early = await whatIf('2026-06-23', `&plan=${id}`)
    expect(early.after).toEqual(early.before)
    expect((await whatIf('2026-06-30', `&plan=${id}&away=${world.graderId}`)).after).toEqual(before)
    await leader.refused(
      403,
      'GET',
      `/api/readiness/forecast/what-if?certification=${world.certification}&on=2026-06-30&plan=${id}`,
    )
    await app.office.post(`/api/plans/${id}/accept`, { pairs: 'all' }, 200)
    const done = await forecastOf('2026-06-30')
    alike(done, after)
    const away = await whatIf('2026-06-30', `&away=${world.graderId}`)
    expect(away.after.booked).toBe(done.booked - 1)
    alike(before, away.after)
  })
})

describe('the forecasts of past month-ends', () => {
  test('rest on the record as it stood, the tests that came, and are held beside what came', async () => {
    const one = await makeTestSetting(app.office)
    const read = async () =>
      (
        await app.office.get<PastReadiness>(
          `/api/readiness/forecast/past?unitId=${one.unitId}&certification=${one.certification}`,
        )
      ).items
    const at = (items: PastReadiness['items'], asOf: string) => items.find((item) => item.asOf === asOf)!
    expect((await read()).map(({ asOf }) => asOf)).toEqual(
      ['05', '06', '07', '08', '09', '10', '11', '12', '01', '02', '03', '04'].map((month) =>
        expect.stringMatching(new RegExp(`^202[56]-${month}-`)),
      ),
    )
    expect(at(await read(), '2026-02-28')).toMatchObject({
      on: '2026-03-30',
      required: 3,
      expected: 2,
      came: 2,
      held: true,
    })
    await putSheet(app.office, one.sheet())
    const items = await read()
    // The only test there is had not been taken then: (0 + 1) / (0 + 2).
    expect(at(items, '2026-02-28')).toMatchObject({ expected: 2.5, low: 2, high: 3, came: 3, held: true })
    expect(at(items, '2026-03-31')).toMatchObject({ expected: 3, low: 3, high: 3, came: 3, held: true })
    // Certified in June 2025 by a carried-over award that nobody could foresee at the end of May.
    expect(at(items, '2025-05-31')).toMatchObject({ expected: 0, low: 0, high: 0, came: 2, held: false })
  })
})
