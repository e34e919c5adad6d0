import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { expectConsistent } from '../../support/by-the-letter/expect-consistent.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = 60
const SEEDS = [21, 22]
const FIGURES = ['tally', 'person_tally', 'standing', 'retest_span', 'earned_award', 'soldier_period']

let test: TestApp

/** Every figure kept, and how every sheet stands. */
async function figures(): Promise<unknown> {
  const tables = FIGURES.map((table) => `(SELECT json_agg(t ORDER BY t::text) FROM ${table} t) AS ${table}`)
  const [row] = await test.sql(`SELECT ${tables.join(', ')},
    (SELECT json_agg(s ORDER BY s.id) FROM sheet s) AS sheets,
    (SELECT json_agg(json_build_array(soldier_id, awarded_on, valid_through) ORDER BY id) FROM carried_award) AS carried`)
  return row
}

describe.each(SEEDS)('whatever happened before (seed %i), removing a soldier', (seed) => {
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
  })
  afterAll(() => test.close())

  it('changes no figure, and all of it still follows from what is kept', async () => {
    const walk = await beginWalk(test, seededRandom(seed))
    for (let step = 1; step <= STEPS; step++) await walk.step()
    for (const id of walk.soldiers) {
      const change = { from: '2026-06-30', left: 'transferred' }
      const { status } = await test.office.tries('POST', `/api/soldiers/${id}/changes`, change)
      expect([200, 201, 409]).toContain(status)
      const { rosterNumber } = await test.office.get<{ rosterNumber: string }>(`/api/soldiers/${id}`)
      const before = await figures()
      const body = { reason: 'Time is over', confirmation: rosterNumber }
      const removed = await test.office.tries('POST', `/api/soldiers/${id}/removal`, body)
      expect(removed.status, JSON.stringify(removed.body)).toBe(200)
      expect(await figures()).toEqual(before)
    }
    await expectConsistent(test, [{}, walk.filter()])
    const [breaks] = await test.sql<{ count: number }>('SELECT count(*)::int AS count FROM record_breaks()')
    expect(breaks!.count).toBe(0)
  })
})
