import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Backlog } from '../../../server/contract/readiness/retests.ts'
import type { Retest } from '../../../server/contract/standards/certifications.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeGround, makeSoldier, makeUnit } from '../../support/factories.ts'
import { COUNT_ANEW, KEPT_READINESS } from '../../support/kept-readiness.ts'
import { beginWalk, type Walk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = Number(process.env.STEPS ?? 90)
const CHECK_EVERY = 15
const SEEDS = process.env.SEEDS?.split(',').map(Number) ?? [5, 11]

describe.each(SEEDS)('whatever happens (seed %i)', (seed) => {
  let test: TestApp
  let walk: Walk
  let commander: Client
  const random = seededRandom(seed)
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
    walk = await beginWalk(test, random)
    commander = await test.signedIn({ name: 'top', roles: ['commander'], unitId: walk.units[0]! })
  })
  afterAll(() => test.close())

  /** Moves the due day of an open retest, where there is one. */
  async function moveDueDay(): Promise<void> {
    const { items } = await test.office.get<{ items: Retest[] }>('/api/retests?limit=50')
    if (items.length === 0) return
    const { soldierId, certification, standard, due } = items[Math.floor(random() * items.length)]!
    const later = addDays(due, 1 + Math.floor(random() * 60))
    const body = { certification, standard, due: later, reason: 'On a course' }
    await test.office.post(`/api/soldiers/${soldierId}/due-days`, body)
  }

  /** One entry for two soldiers, and sometimes apart again. */
  async function merge(): Promise<void> {
    const [keptId, awayId] = [...walk.soldiers].sort(() => random() - 0.5)
    const answer = await test.office.tries('POST', `/api/soldiers/${keptId}/merges`, {
      awayId,
      reason: 'Entered twice',
    })
    if (answer.status >= 300) return
    await expectEqual()
    const { id } = answer.body as { id: string }
    await test.office.tries('POST', `/api/merges/${id}/undo`, { reason: 'Two soldiers' })
  }

  async function expectEqual(): Promise<void> {
    const kept = await test.sql(KEPT_READINESS)
    await test.sql(COUNT_ANEW)
    expect(await test.sql(KEPT_READINESS)).toEqual(kept)
  }

  it('what is kept is what counting everybody anew finds', async () => {
    for (let step = 1; step <= STEPS; step++) {
      await walk.step()
      if (step % 5 === 0) await moveDueDay()
      if (step % CHECK_EVERY === 0) await expectEqual()
    }
    expect((await test.sql(KEPT_READINESS)).length).toBeGreaterThan(100)
    await merge()
    await expectEqual()
  })

  it('says the same to whoever sees everybody as is counted for a commander of all', async () => {
    const period = 'from=2025-11-20&to=2026-06-17'
    for (const unitId of walk.units) {
      const trend = `/api/readiness/trend?${period}&unitId=${unitId}`
      expect(await test.office.get(trend)).toEqual(await commander.get(trend))
      const backlog = `/api/retests/backlog?asOf=2026-06-17&months=9&unitId=${unitId}`
      expect(await test.office.get(backlog)).toEqual(await commander.get(backlog))
    }
    const { points } = await test.office.get<Backlog>('/api/retests/backlog?asOf=2026-06-17&months=9')
    expect(points.some(({ open }) => open > 0)).toBe(true)
    expect(points.some(({ pastDue }) => pastDue > 0)).toBe(true)
  })
})

it('what a unit counted for goes with it, also where that was not added up yet', async () => {
  const test = await buildTestApp()
  const { unitId } = await makeGround(test.office)
  const platoon = await makeUnit(test.office, { kind: 'platoon', parentId: unitId })
  const id = await makeSoldier(test.office, platoon, { from: '2026-01-01' })
  const kept = await test.sql(KEPT_READINESS)
  expect(kept.some((row) => (row as { unit_id: string }).unit_id === platoon)).toBe(true)
  await test.sql('SELECT fold_readiness()')
  const [joined] = await test.sql<{ id: string }>('SELECT id FROM soldier_change WHERE soldier_id = $1', [id])
  const moved = { from: '2026-01-01', unitId, grade: 'SGT', arms: ['sword'], reason: 'Never was in the platoon' }
  await test.office.put(`/api/soldiers/${id}/changes/${joined!.id}`, moved, 200)
  await test.office.tries('DELETE', `/api/units/${platoon}`)
  expect(await test.sql('SELECT FROM unit WHERE id = $1', [platoon])).toEqual([])
  const after = await test.sql(KEPT_READINESS)
  await test.sql(COUNT_ANEW)
  expect(await test.sql(KEPT_READINESS)).toEqual(after)
  expect(after.some((row) => (row as { unit_id: string }).unit_id === unitId)).toBe(true)
  await test.close()
})
