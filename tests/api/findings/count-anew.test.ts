import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { countAnew } from '../../../server/assessment/services/recount/count-anew.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'

/** Every figure as text, by what it is about. */
const FIGURES = `
  SELECT concat(to_jsonb(t) - 'id', (SELECT jsonb_agg(to_jsonb(p) - 'tally_id' ORDER BY p.role, p.soldier_id)
    FROM person_tally p WHERE p.tally_id = t.id AND p.attempts > 0)) AS figure
  FROM tally t WHERE attempts > 0
  UNION ALL SELECT concat_ws(' ', id, tallied_kind, tallied_unit_id) FROM sheet
  ORDER BY 1`

describe('counting anew', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
    const walk = await beginWalk(test, seededRandom(14))
    for (let step = 1; step <= 60; step++) await walk.step()
  })
  afterAll(() => test.close())

  it('makes the very figures that storing the sheets one by one made', async () => {
    const before = await test.sql<{ figure: string }>(FIGURES)
    expect(before.length).toBeGreaterThan(50)
    await test.sql('UPDATE sheet SET tallied_kind = NULL, tallied_unit_id = NULL')
    await test.sql('TRUNCATE person_tally, tally')
    const heard: number[] = []
    await countAnew(test.db, (candidates) => heard.push(candidates))
    expect(await test.sql(FIGURES)).toEqual(before)
    expect(heard.at(-1)).toBeGreaterThan(0)
  })

  it('finds nothing to do where all is counted', async () => {
    const before = await test.sql(FIGURES)
    await countAnew(test.db, () => expect.unreachable())
    expect(await test.sql(FIGURES)).toEqual(before)
  })
})
