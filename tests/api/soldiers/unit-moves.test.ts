import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { MeasureFindings } from '../../../server/contract/findings/findings.ts'
import type { Unit } from '../../../server/contract/soldiers/soldiers.ts'
import type { UnitMoved, UnitMovePreview } from '../../../server/contract/soldiers/unit-moves.ts'
import type { Certification } from '../../../server/contract/standards/certifications.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeCertification, makeSoldier, makeTestSetting, makeUnit, putSheet } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { times } from '../../support/sheet-body.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp({ timeZone: 'UTC' })
})
afterAll(() => test.close())

const DAY = '2026-06-01'
const units = () => pagesOf<Unit>(test.office, '/api/units', 500)
const unitOf = async (id: string) => (await units()).find((unit) => unit.id === id)
const move = async (id: string, parentId: string | null, from = DAY): Promise<UnitMoved> => {
  const { status, body } = await test.office.tries('POST', `/api/units/${id}/move`, { parentId, from })
  expect(status, JSON.stringify(body)).toBe(200)
  return body as UnitMoved
}
const peopleOf = async (unitId: string, asOf: string, client = test.office) =>
  (await client.get<{ items: { id: string }[] }>(`/api/soldiers?unitId=${unitId}&asOf=${asOf}`)).items.map(
    ({ id }) => id,
  )

describe('the order of units', () => {
  it('is the unit’s own among sisters, on record, and new ones come last', async () => {
    const top = await makeUnit(test.office)
    const [a, b, c] = [
      await makeUnit(test.office, { parentId: top, name: 'Color Platoon' }),
      await makeUnit(test.office, { parentId: top, name: 'Rifle Platoon' }),
      await makeUnit(test.office, { parentId: top, name: 'Band' }),
    ]
    const order = (ids: string[], parentId: string | null = top) =>
      test.office.tries('PUT', '/api/unit-order', { parentId, ids })
    expect(await order([b, a, c])).toMatchObject({ status: 200 })
    const late = await makeUnit(test.office, { parentId: top, name: 'A late one' })
    const sisters = (await units()).filter(({ parentId }) => parentId === top).sort((x, y) => x.place - y.place)
    expect(sisters.map(({ id }) => id)).toEqual([b, a, c, late])
    const [entry] = await test.sql<{ after: unknown }>(
      "SELECT after FROM record_entry WHERE action = 'unit.ordered' AND subject_id = $1",
      [top],
    )
    expect(entry!.after).toEqual({ parentId: top, units: ['Rifle Platoon', 'Color Platoon', 'Band'] })
    for (const ids of [
      [b, a, c],
      [b, a, c, late, top],
      [b, b, a, c],
    ])
      expect(await order(ids)).toMatchObject({ status: 409 })
    const leader = await test.signedIn({ name: 'orders', roles: ['leader'], unitId: top })
    await leader.refused(403, 'PUT', '/api/unit-order', { parentId: top, ids: [a, b, c, late] })
  })

  it('is that of who can stand by unit', async () => {
    const { certification, unitId: top } = await makeTestSetting(test.office)
    const last = await makeUnit(test.office, { parentId: top, name: 'Alpha' })
    const first = await makeUnit(test.office, { parentId: top, name: 'Zulu' })
    const [inLast, inFirst] = [await makeSoldier(test.office, last), await makeSoldier(test.office, first)]
    await test.office.tries('PUT', '/api/unit-order', { parentId: top, ids: [first, last] })
    const { items } = await test.office.get<{ items: { soldierId: string }[] }>(
      `/api/readiness?unitId=${top}&certification=${certification}&sort=unit&limit=500`,
    )
    const place = (id: string) => items.findIndex(({ soldierId }) => soldierId === id)
    expect(place(inFirst)).toBeLessThan(place(inLast))
  })
})

describe('a unit that moves', () => {
  it('goes on under the other one from that day, and its past stays, figures and all', async () => {
    const setting = await makeTestSetting(test.office)
    const [a, b] = [await makeUnit(test.office), await makeUnit(test.office)]
    const platoon = await makeUnit(test.office, { parentId: a, name: '2nd Platoon', kind: 'platoon' })
    const squad = await makeUnit(test.office, { parentId: platoon, name: '1st Squad', kind: 'platoon' })
    await test.office.post(`/api/soldiers/${setting.candidateId}/changes`, { from: '2026-01-01', unitId: squad }, 200)
    const joins = await makeSoldier(test.office, a, { from: '2026-01-01' })
    await test.office.post(`/api/soldiers/${joins}/changes`, { from: '2026-07-01', unitId: platoon }, 200)
    const gone = await makeSoldier(test.office, platoon, { from: '2026-01-01' })
    await test.office.post(`/api/soldiers/${gone}/changes`, { from: '2026-05-01', left: 'transferred' }, 200)
    await putSheet(test.office, setting.sheet(times('2026-03-02')))
    await putSheet(test.office, setting.sheet(times('2026-06-05')))
    const [before, after] = [
      (await test.office.post('/api/test-days', { on: '2026-05-31', unitId: platoon })).id,
      (await test.office.post('/api/test-days', { on: '2026-07-02', unitId: squad })).id,
    ]
    const leader = await test.signedIn({ name: 'leads-2nd', roles: ['leader'], unitId: platoon })
    const forPlatoon = await makeCertification(test.office, {
      standards: [setting.standard],
      requiredOf: { grades: null, units: [platoon] },
    })
    await makeCertification(test.office, {
      title: 'Company’s own',
      standards: [setting.standard],
      requiredOf: { grades: null, units: [a] },
    })

    const preview = await test.office.get<UnitMovePreview>(`/api/units/${platoon}/move?parentId=${b}&from=${DAY}`)
    expect(preview).toEqual({
      from: DAY,
      units: 2,
      people: 2,
      testDays: 1,
      ceremonies: 0,
      accounts: 1,
      required: ['Company’s own'],
      zone: null,
    })
    const moved = await move(platoon, b)
    expect(moved).toEqual({ id: expect.any(String), people: 2, units: 2 })
    const all = await units()
    const newSquad = all.find(({ parentId }) => parentId === moved.id)!
    expect(await unitOf(platoon)).toMatchObject({ parentId: a, closedFrom: DAY })
    expect(await unitOf(moved.id)).toMatchObject({
      name: '2nd Platoon',
      kind: 'platoon',
      parentId: b,
      closedFrom: null,
      continues: [platoon],
    })
    expect(newSquad).toMatchObject({ name: '1st Squad', continues: [squad] })

    const { candidateId } = setting
    expect(await peopleOf(a, '2026-05-31')).toEqual(expect.arrayContaining([candidateId, joins]))
    expect(await peopleOf(b, '2026-05-31')).toEqual([])
    expect(await peopleOf(newSquad.id, DAY)).toEqual([candidateId])
    expect(await peopleOf(a, '2026-07-01')).toEqual([])
    expect((await peopleOf(moved.id, '2026-07-01')).sort()).toEqual([candidateId, joins].sort())

    const tested = async (unitId: string) => {
      const path = `/api/findings/measures?standard=${setting.standard}&unitId=${unitId}`
      return (await test.office.get<MeasureFindings>(path)).items[0]?.tested ?? 0
    }
    expect(await Promise.all([a, platoon, squad, b, moved.id, newSquad.id].map(tested))).toEqual([1, 1, 1, 1, 1, 1])

    const dayOf = async (id: string) => (await test.office.get<{ unitId: string }>(`/api/test-days/${id}`)).unitId
    expect([await dayOf(before), await dayOf(after)]).toEqual([platoon, newSquad.id])
    expect((await peopleOf(moved.id, '2026-07-01', leader)).length).toBe(2)
    expect(await peopleOf(platoon, '2026-05-31', leader)).toEqual([candidateId])
    const { items } = await test.office.get<{ items: Certification[] }>('/api/certifications?limit=500')
    expect(items.find(({ code }) => code === forPlatoon)!.requiredOf!.units).toEqual([platoon, moved.id])
    const [entry] = await test.sql<{ after: object }>(
      "SELECT after FROM record_entry WHERE action = 'unit.moved' AND subject_id = $1",
      [moved.id],
    )
    expect(entry!.after).toMatchObject({ parentId: b, from: DAY, units: 2, people: 2, accounts: 1 })
  })

  it('that was in the wrong place from the first day leaves nothing behind', async () => {
    const [a, b] = [await makeUnit(test.office), await makeUnit(test.office)]
    const slip = await makeUnit(test.office, { parentId: a, name: 'Slip' })
    const soldier = await makeSoldier(test.office, slip, { from: '2026-02-01' })
    const { id } = await move(slip, b, '2026-02-01')
    expect(await unitOf(slip)).toBeUndefined()
    expect(await unitOf(id)).toMatchObject({ parentId: b, continues: [] })
    expect(await peopleOf(id, '2026-02-01')).toEqual([soldier])
  })

  it('keeps its clock where another one holds', async () => {
    const berlin = await makeUnit(test.office, { timeZone: 'Europe/Berlin' })
    const tokyo = await makeUnit(test.office, { timeZone: 'Asia/Tokyo' })
    const team = await makeUnit(test.office, { parentId: berlin, timeZone: null })
    const preview = await test.office.get<UnitMovePreview>(`/api/units/${team}/move?parentId=${tokyo}&from=${DAY}`)
    expect(preview.zone).toBe('Europe/Berlin')
    expect(await unitOf((await move(team, tokyo)).id)).toMatchObject({ timeZone: 'Europe/Berlin' })
  })

  it('may move again, back even, and who leads it still sees all it was', async () => {
    const [a, b] = [await makeUnit(test.office), await makeUnit(test.office)]
    const team = await makeUnit(test.office, { parentId: a })
    const soldier = await makeSoldier(test.office, team, { from: '2026-01-01' })
    const leader = await test.signedIn({ name: 'leads-on', roles: ['leader'], unitId: team })
    const second = await move(team, b, '2026-03-01')
    const third = await move(second.id, a, '2026-05-01')
    expect(await unitOf(third.id)).toMatchObject({ parentId: a, continues: [second.id, team] })
    for (const [unitId, asOf] of [
      [team, '2026-02-28'],
      [second.id, '2026-03-01'],
      [third.id, '2026-05-01'],
    ] as const)
      expect(await peopleOf(unitId, asOf, leader)).toEqual([soldier])
  })

  it('is refused where it makes no sense, with what to do', async () => {
    const [a, b] = [await makeUnit(test.office), await makeUnit(test.office)]
    const team = await makeUnit(test.office, { parentId: a, name: 'Color Team' })
    const below = await makeUnit(test.office, { parentId: team })
    const refuse = async (status: number, id: string, body: object, says: RegExp) => {
      const problem = await test.office.refused(status, 'POST', `/api/units/${id}/move`, body)
      expect(problem.detail).toMatch(says)
    }
    await refuse(422, team, { parentId: a, from: DAY }, /is there already/)
    await refuse(422, team, { parentId: below, from: DAY }, /cannot go below itself/)
    await refuse(422, team, { parentId: team, from: DAY }, /cannot go below itself/)
    await refuse(422, team, { parentId: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11', from: DAY }, /no such unit above/)
    await test.office.tries('PATCH', `/api/units/${b}`, { closedFrom: '2026-08-01' })
    await refuse(422, team, { parentId: b, from: DAY }, /is closed from 2026-08-01/)
    await refuse(409, b, { parentId: a, from: DAY }, /Open it again under Units/)
    await test.office.tries('PATCH', `/api/units/${below}`, { closedFrom: '2026-07-01' })
    await refuse(409, team, { parentId: null, from: DAY }, /is closed from 2026-07-01/)
    const leader = await test.signedIn({ name: 'moves', roles: ['leader'], unitId: a })
    await leader.refused(403, 'POST', `/api/units/${team}/move`, { parentId: null, from: DAY })
    await leader.refused(403, 'GET', `/api/units/${team}/move?from=${DAY}`)
  })
})
