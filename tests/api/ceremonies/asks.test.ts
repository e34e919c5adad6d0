import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Ask, AskCandidates, CeremonyAsks } from '../../../server/contract/ceremonies/asks.ts'
import type { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { carryOver, type Ground, makeGround, makeSoldier, makeUnit } from '../../support/factories.ts'

let app: TestApp
let ground: Ground
let [first, second, third]: Client[] = []
let secondId: string
let inSecond: string
let uncertified: string

/** On 15 June 2026: three platoons; the first plans a ceremony, of the second one soldier can stand. */
beforeAll(async () => {
  app = await buildTestApp()
  ground = await makeGround(app.office)
  const platoon = (name: string) => makeUnit(app.office, { name, kind: 'platoon', parentId: ground.unitId })
  const firstId = await platoon('1st Platoon')
  secondId = await platoon('2nd Platoon')
  const thirdId = await platoon('3rd Platoon')
  inSecond = await makeSoldier(app.office, secondId, { grade: 'PFC' })
  uncertified = await makeSoldier(app.office, secondId, { grade: 'PFC' })
  const inThird = await makeSoldier(app.office, thirdId, { grade: 'PFC' })
  for (const id of [inSecond, inThird]) await carryOver(app.office, id, ground.certification)
  const leader = (name: string, unitId: string) => app.signedIn({ name, roles: ['leader'], unitId })
  first = await leader('first', firstId)
  second = await leader('second', secondId)
  third = await leader('third', thirdId)
  ceremonyId = await plan(firstId, '2026-06-25')
})
afterAll(() => app.close())

let ceremonyId: string
const plan = async (unitId: string, day: string): Promise<string> => {
  const post = (place: number) => ({
    title: `Sentry ${place}`,
    row: 1,
    place,
    certification: ground.certification,
    grades: ['PFC'],
  })
  const { id } = await app.office.post('/api/ceremonies', {
    title: `Retreat of ${day}`,
    unitId,
    startsAt: `${day}T17:00:00Z`,
    endsAt: `${day}T17:30:00Z`,
    posts: [post(1), post(2)],
  })
  return id
}

const formation = async () => (await app.office.get<CeremonyDetail>(`/api/ceremonies/${ceremonyId}`)).formation
const asks = () => first!.get<CeremonyAsks>(`/api/ceremonies/${ceremonyId}/asks`)
const openTo = async (client: Client) => (await client.get<{ items: Ask[] }>('/api/asks')).items
const notices = async (client: Client) => (await client.get<{ items: Notice[] }>('/api/notices?unread=true')).items
const ask = async (place: number, unitId: string) =>
  first!.post(`/api/ceremonies/${ceremonyId}/asks`, { postId: (await formation())[place]!.id, unitId })

describe('another unit asked for a soldier', () => {
  it('can be asked where one may not name, once, and only its leaders are told', async () => {
    const { units, items } = await asks()
    expect(items).toEqual([])
    expect(units.map(({ name }) => name)).toEqual(expect.arrayContaining(['2nd Platoon', '3rd Platoon']))
    expect(units.map(({ name }) => name)).not.toContain('1st Platoon')
    const { id } = await ask(0, secondId)
    const post = (await formation())[0]!
    const again = { postId: post.id, unitId: secondId }
    expect(await first!.refused(409, 'POST', `/api/ceremonies/${ceremonyId}/asks`, again)).toMatchObject({
      type: 'urn:reviewstand:problem:asked-already',
    })
    await app.office.refused(404, 'POST', `/api/ceremonies/${ceremonyId}/asks`, again)
    await second!.refused(404, 'POST', `/api/ceremonies/${ceremonyId}/asks`, again)
    await second!.refused(404, 'GET', `/api/ceremonies/${ceremonyId}/asks`)
    await second!.refused(404, 'GET', `/api/ceremonies/${ceremonyId}`)
    expect(await openTo(second!)).toMatchObject([
      { id, title: 'Retreat of 2026-06-25', unitName: '1st Platoon', postTitle: 'Sentry 1', answer: null, word: '' },
    ])
    expect(await notices(second!)).toMatchObject([
      { kind: 'soldier asked for', ask: { post: 'Sentry 1' }, aboutId: null },
    ])
    for (const other of [first!, third!]) {
      expect(await openTo(other)).toEqual([])
      expect(await notices(other)).toEqual([])
    }
  })

  it('answers yes with one of its own who can stand, and who asked sees the answer, not the name', async () => {
    const { id } = (await openTo(second!))[0]!
    const { items } = await second!.get<AskCandidates>(`/api/asks/${id}/candidates`)
    expect(items).toMatchObject([{ soldierId: inSecond, stood: 0 }])
    await third!.refused(404, 'GET', `/api/asks/${id}/candidates`)
    await third!.refused(404, 'POST', `/api/asks/${id}/answer`, { answer: 'no', word: 'Not ours' })
    await first!.refused(404, 'POST', `/api/asks/${id}/answer`, { answer: 'no', word: 'Not ours' })
    await second!.refused(422, 'POST', `/api/asks/${id}/answer`, { answer: 'yes', soldierId: uncertified })
    await second!.refused(422, 'POST', `/api/asks/${id}/answer`, { answer: 'no', word: ' ' })
    await second!.post(`/api/asks/${id}/answer`, { answer: 'yes', soldierId: inSecond }, 200)
    await second!.refused(409, 'POST', `/api/asks/${id}/answer`, { answer: 'no', word: 'Late' })
    expect((await formation())[0]).toMatchObject({ filled: true, soldier: { id: inSecond } })
    expect((await asks()).items).toMatchObject([{ id, answer: 'yes', askedUnitName: '2nd Platoon' }])
    const seen = await first!.get<CeremonyDetail>(`/api/ceremonies/${ceremonyId}`)
    expect(seen.formation[0]).toMatchObject({ filled: true, otherUnit: true, soldier: null })
    expect(await notices(first!)).toMatchObject([
      { kind: 'ask answered', ask: { answer: 'yes', unitName: '2nd Platoon' } },
    ])
    expect(await notices(second!)).toEqual([])
    expect(await openTo(second!)).toEqual([])
    const again = { postId: (await formation())[0]!.id, unitId: secondId }
    await first!.refused(409, 'POST', `/api/ceremonies/${ceremonyId}/asks`, again)
  })

  it('answers no with a word; what was asked can be taken back, and ends with the ceremony', async () => {
    const { id } = await ask(1, secondId)
    await second!.post(`/api/asks/${id}/answer`, { answer: 'no', word: 'All on leave' }, 200)
    const answered = (await asks()).items.find((one) => one.id === id)
    expect(answered).toMatchObject({ answer: 'no', word: 'All on leave' })
    const { id: other } = await ask(1, secondId)
    await second!.refused(404, 'POST', `/api/asks/${other}/take-back`)
    await first!.post(`/api/asks/${other}/take-back`, undefined, 200)
    await first!.refused(409, 'POST', `/api/asks/${other}/take-back`)
    await second!.refused(409, 'POST', `/api/asks/${other}/answer`, { answer: 'no', word: 'Late' })
    const { id: last } = await ask(1, secondId)
    const { version } = await app.office.get<CeremonyDetail>(`/api/ceremonies/${ceremonyId}`)
    await first!.post(`/api/ceremonies/${ceremonyId}/cancel`, { version, reason: 'Storm' }, 200)
    expect(await openTo(second!)).toEqual([])
    expect(await notices(second!)).toEqual([])
    await second!.refused(409, 'POST', `/api/asks/${last}/answer`, { answer: 'yes', soldierId: inSecond })
  })

  it('is not for sponsors, graders and soldiers', async () => {
    const grader = await app.signedIn({ name: 'grader', roles: ['grader'], soldierId: ground.graderId })
    await grader.refused(403, 'GET', '/api/asks')
    await grader.refused(403, 'GET', `/api/ceremonies/${ceremonyId}/asks`)
  })
})
