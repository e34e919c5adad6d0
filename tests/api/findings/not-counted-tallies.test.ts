import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Basis } from '../../../server/contract/findings/basis.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeGround, makeSoldier, makeUnit, putSheet } from '../../support/factories.ts'
import { COUNT_SHEETS_ANEW, KEPT_NOT_COUNTED } from '../../support/kept-not-counted.ts'
import { beginWalk, type Walk } from '../../support/random-walk.ts'
import { GO_MARKS, times } from '../../support/sheet-body.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = Number(process.env.STEPS ?? 90)
const CHECK_EVERY = 15
const SEEDS = process.env.SEEDS?.split(',').map(Number) ?? [5, 11]
const FIRST_DAY = '2026-01-05'

/** Every sheet looked at, one by one; `$1`: unit, `$2` and `$3`: first and last day, `$4`: arm. */
const BY_THE_LETTER = `
  SELECT count(*) FILTER (WHERE why = 'held')::int AS held, count(*) FILTER (WHERE why = 'rejected')::int AS rejected,
    count(*) FILTER (WHERE why = 'void')::int AS void, count(*) FILTER (WHERE why = 'second')::int AS "secondGrader",
    count(*) FILTER (WHERE why = 'practice')::int AS practice
  FROM (SELECT CASE WHEN s.purpose = 'practice' THEN 'practice' WHEN s.state <> 'counted' THEN s.state
      WHEN s.outcome = 'VOID' THEN 'void' WHEN s.second_of IS NOT NULL THEN 'second' END AS why
    FROM sheet s WHERE s.tallied_kind IS NULL AND ($2::date IS NULL OR s.day >= $2) AND ($3::date IS NULL OR s.day <= $3)
      AND ($4::text IS NULL OR s.arm = $4)
      AND ($1::uuid IS NULL OR EXISTS (SELECT FROM soldier_period p JOIN unit u ON u.id = p.unit_id
        WHERE p.soldier_id = s.candidate_id AND daterange(p.from_day, p.through_day, '[]') @> s.day
          AND $1 = ANY(u.lineage)))) sheets`

describe.each(SEEDS)('whatever happens (seed %i)', (seed) => {
  let test: TestApp
  let walk: Walk
  const random = seededRandom(seed)
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
    walk = await beginWalk(test, random)
  })
  afterAll(() => test.close())

  async function expectEqual(): Promise<void> {
    const kept = await test.sql(KEPT_NOT_COUNTED)
    await test.sql(COUNT_SHEETS_ANEW)
    expect(await test.sql(KEPT_NOT_COUNTED)).toEqual(kept)
  }

  /** Asks about a unit, days and an arm at random, each or none of them. */
  async function expectAnswer(): Promise<void> {
    const maybe = <Value>(value: Value): Value | null => (random() < 0.5 ? value : null)
    const from = addDays(FIRST_DAY, Math.floor(random() * 90))
    const asked = {
      unitId: maybe(walk.units[Math.floor(random() * walk.units.length)]!),
      from: maybe(from),
      to: maybe(addDays(from, Math.floor(random() * 90))),
      arm: maybe(random() < 0.7 ? 'sword' : 'saber'),
    }
    const query = new URLSearchParams(Object.entries(asked).filter((one): one is [string, string] => one[1] !== null))
    const { basis } = await test.office.get<{ basis: Basis }>(`/api/findings/measures?${query}`)
    const [expected] = await test.sql(BY_THE_LETTER, Object.values(asked))
    expect(basis.notCounted, query.toString()).toEqual(expected)
  }

  /** One entry for two soldiers, and apart again. */
  async function merge(): Promise<void> {
    const [keptId, awayId] = [...walk.soldiers].sort(() => random() - 0.5)
    const merged = await test.office.tries('POST', `/api/soldiers/${keptId}/merges`, {
      awayId,
      reason: 'Entered twice',
    })
    if (merged.status >= 300) return
    await expectEqual()
    const { id } = merged.body as { id: string }
    await test.office.tries('POST', `/api/merges/${id}/undo`, { reason: 'Two soldiers' })
    await expectEqual()
  }

  it('what is kept is what counting every sheet anew finds, and what is answered', async () => {
    for (let step = 1; step <= STEPS; step++) {
      await walk.step()
      if (step % 5 === 0) await expectAnswer()
      if (step % CHECK_EVERY === 0) await expectEqual()
    }
    const whys = await test.sql('SELECT DISTINCT why FROM not_counted_tally')
    expect(whys.length).toBeGreaterThan(2)
    for (let times = 0; times < 4; times++) await merge()
    await expectAnswer()
  })
})

it('what a unit gathered goes with it, also where that was not added up yet', async () => {
  const test = await buildTestApp()
  const ground = await makeGround(test.office)
  const { unitId, standard, graderId } = ground
  const platoon = await makeUnit(test.office, { kind: 'platoon', parentId: unitId })
  const candidateId = await makeSoldier(test.office, platoon, { from: '2026-01-01' })
  const sheet = { purpose: 'practice', standard, standardVersion: 1, arm: 'sword', candidateId, graderId } as const
  await putSheet(test.office, { ...sheet, ...times('2026-03-02'), ...GO_MARKS })
  await test.sql('SELECT fold_not_counted()')
  const units = async () =>
    new Set((await test.sql<{ unit_id: string }>(KEPT_NOT_COUNTED)).map(({ unit_id: id }) => id))
  expect(await units()).toEqual(new Set([platoon, unitId]))
  const [joined] = await test.sql<{ id: string }>('SELECT id FROM soldier_change WHERE soldier_id = $1', [candidateId])
  const moved = { from: '2026-01-01', unitId, grade: 'SGT', arms: ['sword'], reason: 'Never was in the platoon' }
  await test.office.put(`/api/soldiers/${candidateId}/changes/${joined!.id}`, moved, 200)
  await test.office.tries('DELETE', `/api/units/${platoon}`)
  expect(await test.sql('SELECT FROM unit WHERE id = $1', [platoon])).toEqual([])
  expect(await units()).toEqual(new Set([unitId]))
  const after = await test.sql(KEPT_NOT_COUNTED)
  await test.sql(COUNT_SHEETS_ANEW)
  expect(await test.sql(KEPT_NOT_COUNTED)).toEqual(after)
  await test.close()
})
