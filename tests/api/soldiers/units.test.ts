import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Unit } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier, makeUnit } from '../../support/factories.ts'
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
    expect(await listed(created.id)).toEqual({ id: created.id, ...body, zone: 'America/New_York' })
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
