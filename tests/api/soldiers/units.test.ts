import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Unit } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeUnit } from '../../support/factories.ts'
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
