import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Unit } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeTestSetting, makeUnit } from '../../support/factories.ts'
import { makeImporter } from '../../support/import-file.ts'
import { pagesOf } from '../../support/pages-of.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp({ timeZone: 'Asia/Tokyo' })
})
afterAll(() => test.close())

const listed = async (id: string) => (await pagesOf<Unit>(test.office, '/api/units', 500)).find((one) => one.id === id)

describe('units', () => {
  it('are none at first', async () => {
    expect(await test.office.get('/api/units')).toEqual({ items: [], next: null })
  })

  it('are created with an id and listed as they were given', async () => {
    const body = { name: 'Calloway Point', kind: 'unit', parentId: null, timeZone: 'America/New_York' }
    const created = await test.office.post('/api/units', body)
    expect(created).toEqual({ id: expect.stringMatching(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/) })
    expect(await listed(created.id)).toEqual({
      id: created.id,
      ...body,
      zone: 'America/New_York',
      closedFrom: null,
      place: 0,
      continues: [],
    })
  })

  it('take their time zone from above, at the top from the server', async () => {
    const top = await makeUnit(test.office, { timeZone: undefined })
    const company = await makeUnit(test.office, { kind: 'company', parentId: top, timeZone: 'Europe/Berlin' })
    const platoon = await makeUnit(test.office, { kind: 'platoon', parentId: company, timeZone: null })
    expect(await listed(top)).toMatchObject({ timeZone: null, zone: 'Asia/Tokyo', parentId: null })
    expect(await listed(platoon)).toMatchObject({ timeZone: null, zone: 'Europe/Berlin', parentId: company })
  })

  it('are refused with what they must not be', async () => {
    const good = { name: 'U', kind: 'unit' }
    const wrong: [object, string][] = [
      [{ name: 7 }, '/name'],
      [{ name: undefined }, '/name'],
      [{ name: 'x'.repeat(401) }, '/name'],
      [{ kind: 'squad' }, '/kind'],
      [{ kind: 'a squad' }, '/kind'],
      [{ kind: undefined }, '/kind'],
      [{ parentId: 'x' }, '/parentId'],
      [{ parentId: '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11' }, '/parentId'],
      [{ timeZone: 'Mars/Olympus' }, '/timeZone'],
      [{ timeZone: '+05:00' }, '/timeZone'],
      [{ timeZone: '' }, '/timeZone'],
    ]
    for (const [change, pointer] of wrong) {
      const problem = await test.office.refused(422, 'POST', '/api/units', { ...good, ...change })
      expect(problem.errors).toMatchObject([{ pointer }])
    }
  })

  it('come in pages, by name, each once', async () => {
    for (const name of ['b', 'B', 'ä', 'a', 'a', '😀', 'Z']) await makeUnit(test.office, { name })
    const all = await pagesOf<Unit>(test.office, '/api/units', 500)
    for (const limit of [1, 2, 3, all.length])
      expect(await pagesOf<Unit>(test.office, '/api/units', limit)).toEqual(all)
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length)
    expect(all.length).toBe(11)
  })
})

describe('a unit that is there', () => {
  it('is renamed, and its zone changed, on record; what was not said stays', async () => {
    const id = await makeUnit(test.office, { name: 'Third Platoon', kind: 'platoon', timeZone: 'Europe/Berlin' })
    const change = (body: object) => test.office.tries('PATCH', `/api/units/${id}`, body)
    expect(await change({ name: '3rd Platoon' })).toMatchObject({ status: 200 })
    expect(await change({ timeZone: null, kind: 'company' })).toMatchObject({ status: 200 })
    expect(await listed(id)).toMatchObject({ name: '3rd Platoon', kind: 'company', timeZone: null, zone: 'Asia/Tokyo' })
    const entries = await test.sql<{ before: object; after: object }>(
      "SELECT before, after FROM record_entry WHERE action = 'unit.changed' AND subject_id = $1 ORDER BY seq",
      [id],
    )
    expect(entries).toMatchObject([
      { before: { name: 'Third Platoon' }, after: { name: '3rd Platoon', timeZone: 'Europe/Berlin' } },
      { before: { timeZone: 'Europe/Berlin' }, after: { name: '3rd Platoon', timeZone: null } },
    ])
  })

  it('refuses a change that says nothing, or what must not be', async () => {
    const id = await makeUnit(test.office)
    for (const body of [{}, { name: ' ' }, { kind: 'squad' }, { timeZone: 'Mars/Olympus' }, { parentId: id }])
      await test.office.refused(422, 'PATCH', `/api/units/${id}`, body)
    await test.office.refused(404, 'PATCH', '/api/units/8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11', { name: 'A' })
    const leader = await test.signedIn({ name: 'one-who-leads', roles: ['leader'], unitId: id })
    await leader.refused(403, 'PATCH', `/api/units/${id}`, { name: 'Mine' })
    await leader.refused(403, 'DELETE', `/api/units/${id}`)
  })

  it('goes where nothing names it, and stays with the reason where something does', async () => {
    const top = await makeUnit(test.office)
    const empty = await makeUnit(test.office, { parentId: top })
    const manned = await makeUnit(test.office, { parentId: top })
    await makeSoldier(test.office, manned)
    expect((await test.office.refused(409, 'DELETE', `/api/units/${top}`)).detail).toContain('units below it')
    expect((await test.office.refused(409, 'DELETE', `/api/units/${manned}`)).detail).toContain('soldiers who are or')
    expect(await test.office.tries('DELETE', `/api/units/${empty}`)).toMatchObject({ status: 204 })
    expect(await listed(empty)).toBeUndefined()
    await test.office.refused(404, 'DELETE', `/api/units/${empty}`)
    expect(await listed(manned)).toBeDefined()
  })
})

describe('a unit that is closed', () => {
  const close = (id: string, closedFrom: string | null) => ['PATCH', `/api/units/${id}`, { closedFrom }] as const
  const says = (problem: { detail: string }) => problem.detail

  it('has nobody in it from that day on, and its past stays', async () => {
    const top = await makeUnit(test.office)
    const [old, next] = [await makeUnit(test.office, { parentId: top }), await makeUnit(test.office, { parentId: top })]
    const soldier = await makeSoldier(test.office, old, { from: '2026-01-01' })
    expect(says(await test.office.refused(409, ...close(old, '2026-06-01')))).toMatch(/there are: 1 in it\./)
    await test.office.post(`/api/soldiers/${soldier}/changes`, { from: '2026-06-01', unitId: next }, 200)
    expect(await test.office.tries(...close(old, '2026-05-31'))).toMatchObject({ status: 409 })
    await test.office.tries(...close(old, '2026-06-01'))
    expect(await listed(old)).toMatchObject({ closedFrom: '2026-06-01' })
    const before = await test.office.get<{ items: unknown[] }>(`/api/soldiers?unitId=${old}&asOf=2026-05-31`)
    const after = await test.office.get<{ items: unknown[] }>(`/api/soldiers?unitId=${old}&asOf=2026-06-01`)
    expect([before.items.length, after.items.length]).toEqual([1, 0])
  })

  it('takes nobody, no ceremony, no test day and no unit below it, by whatever way', async () => {
    const top = await makeUnit(test.office)
    const id = await makeUnit(test.office, { parentId: top, name: 'Old Guard Platoon' })
    const other = await makeUnit(test.office, { parentId: top })
    await test.office.tries(...close(id, '2026-06-01'))
    const soldier = await makeSoldier(test.office, other, { from: '2026-01-01' })
    const body = { familyName: 'Vale', givenName: 'Kim', grade: 'CPL', arms: [], unitId: id }
    const { certification } = await makeTestSetting(test.office)
    const posts = [{ title: 'Guide', row: 1, place: 1, certification, soldierId: null }]
    const ceremony = { title: 'Parade', unitId: id, startsAt: '2026-07-01T10:00:00Z', endsAt: '2026-07-01T11:00:00Z' }
    const ways: [string, object][] = [
      ['/api/soldiers', { ...body, rosterNumber: 'late', from: '2026-06-01' }],
      ['/api/soldiers', { ...body, rosterNumber: 'early and still', from: '2026-01-01' }],
      [`/api/soldiers/${soldier}/changes`, { from: '2026-06-02', unitId: id }],
      ['/api/test-days', { on: '2026-06-01', unitId: id }],
      ['/api/units', { name: 'New', kind: 'platoon', parentId: id }],
      ['/api/ceremonies', { ...ceremony, posts }],
    ]
    for (const [path, sent] of ways) {
      const problem = await test.office.refused(422, 'POST', path, sent)
      expect(problem, path).toMatchObject({ type: 'urn:reviewstand:problem:unit-closed' })
      expect(problem.detail).toContain('Old Guard Platoon is closed from 2026-06-01 on')
    }
    await test.office.post('/api/test-days', { on: '2026-05-31', unitId: id })

    const importer = await makeImporter(test)
    const roster =
      'Roster number,Family name,Given name,Grade,Arms,Unit,From\nF1,Orr,Lou,CPL,none,Old Guard Platoon,2026-01-01\n'
    const sent = await importer.send(roster)
    await importer.check(sent)
    const [row] = await importer.rows(sent)
    expect(row).toMatchObject({ outcome: 'refused' })
    expect(JSON.stringify(row)).toContain('is closed from 2026-06-01 on')
  })

  it('closes after what is below it, and opens before', async () => {
    const top = await makeUnit(test.office)
    const below = await makeUnit(test.office, { parentId: top })
    await test.office.post('/api/test-days', { on: '2026-07-01', unitId: top })
    expect(says(await test.office.refused(409, ...close(top, '2026-06-01')))).toMatch(
      /1 units below it that are open, 1 test days/,
    )
    await test.office.tries(...close(below, '2026-06-01'))
    await test.office.tries(...close(top, '2026-07-02'))
    expect(await listed(top)).toMatchObject({ closedFrom: '2026-07-02' })
    await test.office.refused(422, ...close(below, null))
    await test.office.tries(...close(top, null))
    await test.office.tries(...close(below, null))
    expect(await listed(below)).toMatchObject({ closedFrom: null })
  })

  it('is closed or entered, never both, where the two come at the same moment', async () => {
    for (let round = 0; round < 8; round++) {
      const id = await makeUnit(test.office)
      const [closed, made] = await Promise.all([
        test.office.tries(...close(id, '2026-06-01')),
        test.office.tries('POST', '/api/soldiers', {
          rosterNumber: `race ${round}`,
          familyName: 'Vale',
          givenName: 'Kim',
          grade: 'CPL',
          arms: [],
          unitId: id,
          from: '2026-01-01',
        }),
      ])
      expect([closed.status === 200, made.status === 201].sort(), JSON.stringify([closed.body, made.body])).toEqual([
        false,
        true,
      ])
    }
  })
})
