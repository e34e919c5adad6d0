import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Found } from '../../../server/contract/search/search.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeCertification, makeSoldier, makeStandard, makeUnit } from '../../support/factories.ts'

let test: TestApp
let leader: Client
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  const { office } = test
  const top = await makeUnit(office, { name: 'Battalion' })
  const platoon = await makeUnit(office, { name: '1st Platoon', kind: 'platoon', parentId: top })
  const add = (rosterNumber: string, familyName: string, givenName: string, unitId = top) =>
    makeSoldier(office, unitId, { rosterNumber, familyName, givenName, grade: 'SGT' })
  await add('1003', 'Peñalver', 'Henrik', platoon)
  await add('1004', 'Østergaard', 'Astrid')
  await add('1005', 'Lindgren-Vale', 'Lachlan')
  await add('2100', 'Tu’ipulotu', 'Zacharias')
  await makeStandard(office, { code: 'manual', title: 'Sword, manual of arms' })
  await makeCertification(office, { code: 'sword', standards: ['manual'] })
  await office.post('/api/ceremonies', {
    title: 'Évening Retreat',
    unitId: platoon,
    startsAt: '2026-07-01T10:00:00Z',
    endsAt: '2026-07-01T11:00:00Z',
    posts: [{ title: 'Guide', row: 1, place: 1, certification: 'sword' }],
  })
  await office.post('/api/test-days', { on: '2026-07-02', unitId: platoon, place: 'Parade field' })
  leader = await test.signedIn({ name: 'leader', roles: ['leader'], unitId: platoon })
})
afterAll(() => test.close())

const find = async (q: string, as = test.office) =>
  (await as.get<{ items: Found[] }>(`/api/search?q=${encodeURIComponent(q)}`)).items.map(({ title }) => title)

describe('search', () => {
  it.each([
    ['penal', 'SGT Peñalver, Henrik'],
    ['PEÑALVER', 'SGT Peñalver, Henrik'],
    ['henrik pen', 'SGT Peñalver, Henrik'],
    ['Penalver, H', 'SGT Peñalver, Henrik'],
    ['1003', 'SGT Peñalver, Henrik'],
    ['ostergaard', 'SGT Østergaard, Astrid'],
    ['vale', 'SGT Lindgren-Vale, Lachlan'],
    ['lindgren-va', 'SGT Lindgren-Vale, Lachlan'],
    ['tu’ipu', 'SGT Tu’ipulotu, Zacharias'],
    ['manual', 'Sword, manual of arms'],
    ['parade', 'Parade field'],
    ['evening', 'Évening Retreat'],
  ])('finds by %s', async (q, title) => expect(await find(q)).toEqual([title]))

  it('finds all that begin so, by name', async () => {
    expect(await find('100')).toEqual(['SGT Lindgren-Vale, Lachlan', 'SGT Østergaard, Astrid', 'SGT Peñalver, Henrik'])
  })

  it.each(['', '  ', '&', "' | !", ':*', '%', '\\', 'nobody'])(
    'takes %j for what it is, and finds nothing',
    async (q) => {
      expect(await find(q)).toEqual([])
    },
  )

  it('shows a leader nobody of another unit', async () => {
    expect(await find('100', leader)).toEqual(['SGT Peñalver, Henrik'])
    expect(await find('astrid', leader)).toEqual([])
  })
})
