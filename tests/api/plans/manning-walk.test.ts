import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver, type Ground, makeGround, makeSoldier } from '../../support/factories.ts'
import { seeded } from '../../support/plans/random-problem.ts'
import { workedOut } from '../../support/plans/solved-plan.ts'

const DAY = '2026-06-20'

let test: TestApp
let ground: Ground
const soldiers: string[] = []
/** Two at one time, and one apart from them. */
const ceremonies: string[] = []
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  ground = await makeGround(test.office)
  for (let at = 0; at < 7; at++) {
    const id = await makeSoldier(test.office, ground.unitId, { grade: 'PFC' })
    await carryOver(test.office, id, ground.certification)
    soldiers.push(id)
  }
  for (const [from, to] of [
    ['10:00', '11:00'],
    ['10:30', '11:30'],
    ['15:00', '16:00'],
  ]) {
    const post = (place: number) => {
      return { title: `Sentry ${place}`, row: 1, place, certification: ground.certification, grades: ['PFC'] }
    }
    const { id } = await test.office.post('/api/ceremonies', {
      title: `Review at ${from}`,
      unitId: ground.unitId,
      startsAt: `${DAY}T${from}:00Z`,
      endsAt: `${DAY}T${to}:00Z`,
      posts: [1, 2, 3].map(post),
    })
    ceremonies.push(String(id))
  }
})
afterAll(() => test.close())

/** What is wrong with the names as they stand; nothing, whatever was done. */
const unsound = (): Promise<unknown[]> =>
  test.sql(`
    WITH named AS (SELECT p.id, p.soldier_id, c.id AS ceremony_id, c.starts_at, c.ends_at FROM post p
      JOIN ceremony c ON c.id = p.ceremony_id WHERE p.soldier_id IS NOT NULL AND c.cancelled_at IS NULL)
    SELECT 'two posts of one ceremony' AS what, a.id FROM named a JOIN named b
      ON a.soldier_id = b.soldier_id AND a.ceremony_id = b.ceremony_id AND a.id < b.id
    UNION ALL SELECT 'two ceremonies at once', a.id FROM named a JOIN named b ON a.soldier_id = b.soldier_id
      AND a.ceremony_id < b.ceremony_id AND a.starts_at < b.ends_at AND b.starts_at < a.ends_at
    UNION ALL SELECT 'somebody merged away', n.id FROM named n JOIN soldier_merge m ON m.away_id = n.soldier_id
      WHERE m.undone_at IS NULL`)

describe('manning plans accepted, undone and overtaken in any order', () => {
  it('leave sound names', async () => {
    const next = seeded(20261201)
    const pick = <Thing>(things: readonly Thing[]): Thing | undefined => things[Math.floor(next() * things.length)]
    const plans: string[] = []
    const done = new Map<string, number>()
    const tries = async (what: string, path: string, body?: object) => {
      const { status } = await test.office.tries('POST', path, body)
      expect([200, 201, 202, 404, 409, 422], `${what}: ${status}`).toContain(status)
      if (status < 300) done.set(what, (done.get(what) ?? 0) + 1)
    }
    const read = (id: string) => test.office.get<CeremonyDetail>(`/api/ceremonies/${id}`)
    const ask = async () => {
      const asked = { kind: 'manning', unitId: ground.unitId, from: DAY, to: DAY }
      const { status, body } = await test.office.tries('POST', '/api/plans', asked)
      expect([200, 202]).toContain(status)
      const { id } = body as { id: string }
      await workedOut(test.office, id)
      if (!plans.includes(id)) plans.push(id)
    }
    const accept = async () => {
      const id = next() < 0.7 ? plans.at(-1) : pick(plans)
      if (!id) return
      const { pairs } = await test.office.get<{ pairs: string[] }>(`/api/plans/${id}/answer`)
      const some = pairs.filter(() => next() < 0.5)
      await tries('accept', `/api/plans/${id}/accept`, { pairs: some.length > 0 ? some : 'all' })
    }
    const undo = async () => {
      const id = pick(plans)
      if (id) await tries('undo', `/api/plans/${id}/undo`)
    }
    /** By hand: off a post of any ceremony, or onto one of that which stands apart. */
    const name = async () => {
      const isApart = next() < 0.5
      const ceremony = await read(isApart ? ceremonies[2]! : pick(ceremonies)!)
      const free = soldiers.filter((id) => ceremony.formation.every(({ soldier }) => soldier?.id !== id))
      const names = [{ postId: pick(ceremony.formation)!.id, soldierId: isApart ? pick(free)! : null }]
      await tries('name', `/api/ceremonies/${ceremony.id}/name`, { version: ceremony.version, names })
    }
    const absence = async () =>
      tries('absence', `/api/soldiers/${pick(soldiers)}/absences`, { kind: 'leave', from: DAY, through: DAY })
    const suspend = async () =>
      tries('suspend', '/api/suspensions', {
        soldierId: pick(soldiers),
        certification: ground.certification,
        from: '2026-06-15',
        reason: 'Blade swung',
      })
    /** With an entry that is named nowhere: two that are named at one time are two duties of one soldier, and stay so. */
    const merge = async () => {
      const awayId = await makeSoldier(test.office, ground.unitId, { grade: 'PFC' })
      await tries('merge', `/api/soldiers/${pick(soldiers)}/merges`, { awayId, reason: 'The same' })
    }
    const callOff = async () => {
      const { version } = await read(ceremonies[1]!)
      await tries('call off', `/api/ceremonies/${ceremonies[1]}/cancel`, { version, reason: 'Storm' })
    }
    const steps = [ask, ask, accept, accept, accept, undo, name, name, merge]
    for (let step = 0; step < 60; step++) {
      if (step === 20) await absence()
      else if (step === 35) await suspend()
      else if (step === 50) await callOff()
      else await pick(steps)!()
      expect(await unsound(), `after step ${step}`).toEqual([])
    }
    for (const what of ['accept', 'undo', 'name', 'merge', 'absence', 'suspend', 'call off']) {
      expect(done.get(what) ?? 0, what).toBeGreaterThan(0)
    }
  }, 600_000)
})
