import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { expectTrend, trendByTheLetter } from '../../support/by-the-letter/expect-trend.ts'
import { type Facts, readFacts } from '../../support/by-the-letter/read-facts.ts'
import { carryOver, putSheet } from '../../support/factories.ts'
import { beginWalk, type Walk } from '../../support/random-walk.ts'
import { outcomeOnly, times } from '../../support/sheet-body.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = 60
const CHECK_EVERY = 20
const WHOLE = { from: '2025-11-20', to: '2027-08-15' }

/** As if no commander had ever signed, refused or extended. */
const withoutWords = (facts: Facts, word: 'decisions' | 'extensions'): Facts => ({
  ...facts,
  soldiers: new Map([...facts.soldiers].map(([id, soldier]) => [id, { ...soldier, [word]: [] }])),
})

/** Everybody earns by test what has to be signed, and holds what can be extended; half of it is. The walk goes on from there. */
async function begin(test: TestApp, { soldiers, units }: Walk): Promise<void> {
  const commander = await test.signedIn({ name: 'signer', roles: ['commander'], unitId: units[0]! })
  for (const [at, candidateId] of soldiers.entries()) {
    const how = { ...times(`2026-0${1 + (at % 4)}-12`), ...outcomeOnly('GO') }
    const people = { candidateId, graderId: soldiers[(at + 1) % soldiers.length]!, sponsorId: null }
    const sheet = { standard: 'manual', standardVersion: 1, arm: 'sword', ...people, ...how }
    const { id: sheetId } = await putSheet(test.office, sheet)
    await carryOver(test.office, candidateId, 'guard', { awardedOn: '2026-01-02', validThrough: '2026-03-20' })
    if (at % 2 === 0) continue
    const items = [{ certification: 'drill', sheetId }]
    const decision = at % 4 === 1 ? 'approve' : 'refuse'
    await commander.post('/api/approvals', { decision, on: '2026-05-03', reason: 'Seen', items })
    const extension = { soldierId: candidateId, certification: 'guard', days: 15 + at, kind: 'injury', reason: 'Knee' }
    await commander.post('/api/extensions', { ...extension, on: '2026-03-20' })
  }
}

describe.each([21, 22])('a course of readiness with approvals and extensions (seed %i)', (seed) => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
  })
  afterAll(() => test.close())

  it('counts on every month end whom the rules make required and certified, in every unit', async () => {
    const walk = await beginWalk(test, seededRandom(seed), { signing: true })
    await begin(test, walk)
    await expectTrend(test, await readFacts(test), WHOLE)
    for (let step = 1; step <= STEPS; step++) {
      await walk.step()
      if (step % CHECK_EVERY === 0) await expectTrend(test, await readFacts(test), WHOLE)
    }
    const facts = await readFacts(test)
    for (const unitId of walk.units) await expectTrend(test, facts, { ...WHOLE, unitId })
    for (const certification of ['guard', 'drill']) await expectTrend(test, facts, { ...WHOLE, certification })
    for (const [from, to] of [
      ['2026-02-28', '2026-02-28'],
      ['2026-03-01', '2026-03-30'],
      ['2026-01-31', '2026-04-30'],
    ])
      await expectTrend(test, facts, { from: from!, to: to! })

    // What commanders said made a difference, or it would show nothing.
    const points = trendByTheLetter(facts, WHOLE)
    expect(trendByTheLetter(withoutWords(facts, 'decisions'), WHOLE)).not.toEqual(points)
    expect(trendByTheLetter(withoutWords(facts, 'extensions'), WHOLE)).not.toEqual(points)
  })
})
