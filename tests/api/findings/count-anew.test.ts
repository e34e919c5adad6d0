import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { countAnew } from '../../../server/assessment/services/recount/count-anew.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'
import { TALLIED_FIGURES, UNCOUNT } from '../../support/tallied-figures.ts'

describe('counting anew', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
    const walk = await beginWalk(test, seededRandom(14))
    for (let step = 1; step <= 60; step++) await walk.step()
  })
  afterAll(() => test.close())

  it('makes the very figures that storing the sheets one by one made', async () => {
    const before = await test.sql<{ figure: string }>(TALLIED_FIGURES)
    expect(before.length).toBeGreaterThan(50)
    for (const statement of UNCOUNT) await test.sql(statement)
    const heard: number[] = []
    await countAnew(test.db, (candidates) => heard.push(candidates))
    expect(await test.sql(TALLIED_FIGURES)).toEqual(before)
    expect(heard.at(-1)).toBeGreaterThan(0)
  })

  it('finds nothing to do where all is counted', async () => {
    const before = await test.sql(TALLIED_FIGURES)
    await countAnew(test.db, () => expect.unreachable())
    expect(await test.sql(TALLIED_FIGURES)).toEqual(before)
  })
})
