import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { expectConsistent } from '../../support/by-the-letter/expect-consistent.ts'
import { everyRow } from '../../support/every-row.ts'
import { beginWalk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = 60
const SEEDS = [11, 12]
/** What the API says of everybody. */
async function everyAnswer(test: TestApp, soldiers: readonly string[]): Promise<unknown[]> {
  const paths = soldiers.flatMap((id) => [
    `/api/soldiers/${id}`,
    `/api/soldiers/${id}/changes`,
    `/api/soldiers/${id}/status`,
    `/api/sheets?soldierId=${id}&limit=500`,
  ])
  const lists = ['/api/soldiers?limit=500', '/api/readiness?limit=500', '/api/retests', '/api/findings/sponsors']
  const answers: unknown[] = []
  for (const path of [...paths, ...lists]) answers.push([path, (await test.office.tries('GET', path)).body])
  return answers
}

describe.each(SEEDS)('a merge of any two entries (seed %i)', (seed) => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
  })
  afterAll(() => test.close())

  it('leaves what the rules make of it, and its undoing all as it was', async () => {
    const random = seededRandom(seed)
    const walk = await beginWalk(test, random)
    let merged = 0
    for (let step = 1; step <= STEPS; step++) {
      await walk.step()
      if (step % 20 !== 0) continue
      // Two of the walk have met at tests, so that they are two people; a newcomer can be anyone of them.
      const twins = await twinsOf(test, walk.soldiers, walk.units, random)
      for (const [keptId, awayId] of twins) {
        const before = [await everyRow(test), await everyAnswer(test, [...walk.soldiers, awayId])]
        test.clock.now = new Date(test.clock.now.getTime() + 1000)
        const answer = await test.office.tries('POST', `/api/soldiers/${keptId}/merges`, { awayId, reason: 'Twice' })
        if (answer.status === 409) continue
        expect(answer.status, JSON.stringify(answer.body)).toBe(201)
        merged += 1
        await expectConsistent(test, [{}, walk.filter()])
        const { id } = answer.body as { id: string }
        await test.office.post(`/api/merges/${id}/undo`, { reason: 'Two' }, 200)
        const [rows, answers] = [await everyRow(test), await everyAnswer(test, [...walk.soldiers, awayId])]
        expect(rows).toEqual(before[0])
        expect(answers).toEqual(before[1])
      }
    }
    expect(merged).toBeGreaterThan(2)
  })
})

/** For some soldiers a second entry with something of everything, who is kept or given up. */
async function twinsOf(
  { office }: TestApp,
  soldiers: readonly string[],
  units: readonly string[],
  random: () => number,
): Promise<[kept: string, away: string][]> {
  const oneOf = <Item>(items: readonly Item[]): Item => items[Math.floor(random() * items.length)]!
  const pairs: [string, string][] = []
  for (let count = 0; count < 3; count++) {
    const soldier = oneOf(soldiers)
    const { id: twin } = await office.post('/api/soldiers', {
      rosterNumber: `T${Math.floor(random() * 1e9)}`,
      familyName: 'Twice',
      givenName: 'Entered',
      grade: 'CPL',
      arms: ['sword'],
      unitId: oneOf(units),
      from: oneOf(['2025-01-01', '2026-02-01', '2026-04-01']),
    })
    const [sponsorId, candidateId] = [oneOf(soldiers), oneOf(soldiers)]
    const from = oneOf(['2026-01-01', '2026-03-01'])
    await office.post(`/api/soldiers/${twin}/sponsorships`, { sponsorId, from })
    await office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId: twin, from })
    await office.post(`/api/soldiers/${twin}/awards`, {
      certification: oneOf(['guard', 'drill']),
      awardedOn: '2026-01-10',
      validThrough: oneOf(['2026-02-20', '2026-12-31']),
      evidence: 'Paper',
    })
    await office.post(`/api/soldiers/${twin}/appointments`, { standard: 'manual', from })
    await office.post(`/api/soldiers/${twin}/absences`, { from, kind: 'course' })
    for (const [part, other] of [
      ['candidateId', oneOf(soldiers)],
      ['graderId', oneOf(soldiers)],
      ['sponsorId', candidateId],
    ] as const) {
      const people = { candidateId: other, graderId: oneOf(soldiers), sponsorId, [part]: twin }
      const day = `2026-0${1 + Math.floor(random() * 5)}-15`
      const id = crypto.randomUUID()
      await office.put(`/api/sheets/${id}`, {
        standard: oneOf(['manual', 'march']),
        standardVersion: 1,
        arm: 'sword',
        ...people,
        startedAt: `${day}T09:00:00Z`,
        finishedAt: `${day}T09:30:00Z`,
        majors: [],
        minors: [],
        outcomeOnly: oneOf(['GO', 'GO', 'NO-GO']),
      })
    }
    pairs.push(random() < 0.5 ? [soldier, twin] : [twin, soldier])
  }
  return pairs
}
