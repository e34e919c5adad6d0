import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createRandom } from '../../../seed/generate/random.ts'
import { refreshFits } from '../../../server/ability/services/refresh-fits.ts'
import { createContext } from '../../../server/context/create-context.ts'
import type { Forecasts } from '../../../server/contract/ability/forecasts.ts'
import type { ForecastFindings } from '../../../server/contract/findings/forecast.ts'
import { keepFits } from '../../../server/process/start/keep-fits.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeTestSetting } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

type Setting = Awaited<ReturnType<typeof makeTestSetting>>

let app: TestApp
let settings: Setting[]
const context = () => createContext({ db: app.db, clock: () => app.clock.now, timeZone: 'UTC' })
const read = (id: string, asOf?: string) =>
  app.office.get<Forecasts>(`/api/soldiers/${id}/forecasts${asOf ? `?asOf=${asOf}` : ''}`)

/** Thirty candidates of differing skill, two tests each, in February and May; "turn" is the hardest. */
beforeAll(async () => {
  app = await buildTestApp()
  const ground = await makeTestSetting(app.office)
  settings = [ground]
  for (let i = 1; i < 30; i++) settings.push(await makeTestSetting(app.office, ground))
  const random = createRandom(5)
  const skills = settings.map((_, i) => 0.3 + (0.6 * i) / 29)
  for (const day of ['2026-02-10', '2026-05-12']) {
    for (const [i, { sheet }] of settings.entries()) {
      const mark = (ease: number) =>
        Array.from({ length: 3 }, () => (random.chance(Math.min(0.97, skills[i]! + ease)) ? 'correct' : 'incorrect'))
      const body = sheet({
        ...times(day),
        majors: [{ code: 'composure', mark: 'GO' }],
        minors: [
          { code: 'draw', trials: mark(0.1) },
          { code: 'halt', trials: mark(0) },
          { code: 'turn', trials: mark(-0.2) },
        ] as never,
      })
      const { status } = await app.office.tries('PUT', `/api/sheets/${randomUUID()}`, body)
      expect(status).toBe(201)
    }
  }
})
afterAll(() => app.close())

describe('before anything was fitted', () => {
  test('the answer says that it rests on assumptions', async () => {
    const { items } = await read(settings[0]!.candidateId)
    expect(items[0]!.fit).toMatchObject({ byPriors: true, sheets: 0, through: null })
    expect(items[0]!.sheets).toBeGreaterThan(0)
  })
})

describe('once fitted', () => {
  beforeAll(() => refreshFits(context()))

  test('it knows the hard measure and the able candidate, and orders the drill by gain', async () => {
    const [weak] = (await read(settings[0]!.candidateId)).items
    const [able] = (await read(settings[29]!.candidateId)).items
    expect(able!.pass).toBeGreaterThan(weak!.pass + 0.2)
    for (const { low, pass, high, basis } of [weak!, able!]) {
      expect(low).toBeLessThanOrEqual(high)
      if (basis === 'model') expect(low <= pass && pass <= high).toBe(true)
    }
    const go = new Map(able!.measures.map((one) => [one.measure, one.go]))
    expect(go.get('turn')!).toBeLessThan(go.get('draw')!)
    const gains = weak!.drill.map(({ gain }) => gain)
    expect(gains).toEqual([...gains].sort((a, b) => b - a))
    expect(weak!.fit).toMatchObject({ byPriors: false, through: '2026-05-12' })
    if (weak!.whatItTakes) expect(weak!.whatItTakes.to).toBeGreaterThan(weak!.whatItTakes.from)
  })

  test('a day in the past knows only what was there then', async () => {
    const id = settings[29]!.candidateId
    const [past] = (await read(id, '2026-03-01')).items
    expect(past!.sheets).toBe(1)
    expect(past!.fit.through === null || past!.fit.through < '2026-03-01').toBe(true)
    const [june] = (await read(id, '2026-06-01')).items
    expect(june!.fit.through).toBe('2026-02-10') // The fit of the quarter's start: the tests of May were not in it.
    const [first] = (await read(id, '2026-02-09')).items
    expect(first).toMatchObject({ sheets: 0, kind: 'first', notReached: ['draw', 'halt', 'turn'] })
  })

  test('past tests are checked against two baselines, and nothing is made anew that rests on the same', async () => {
    const found = await app.office.get<ForecastFindings>('/api/findings/forecast')
    const counted = await app.sql<{ n: number }>("SELECT count(*)::int AS n FROM sheet WHERE state = 'counted'")
    expect(found.n).toBe(counted[0]!.n)
    expect(found.baselines.map(({ baseline }) => baseline)).toEqual(['kind', 'last'])
    expect(found.bins.reduce((sum, { n }) => sum + n, 0)).toBe(found.n)
    expect(found.brier).toBeGreaterThan(0)
    expect(found.brier).toBeLessThan(0.3)
    expect(await refreshFits(context())).toBe(0)
  })

  test('a sheet that comes later changes what rests on it', async () => {
    const { sheet } = settings[3]!
    await app.office.put(`/api/sheets/${randomUUID()}`, sheet({ ...times('2026-06-10') }))
    expect(await refreshFits(context())).toBeGreaterThan(0)
    expect((await read(settings[3]!.candidateId)).items[0]!.fit.through).toBe('2026-06-10')
  })
})

test('a thread keeps it up to date by itself, and two of them do no harm', async () => {
  await app.sql('DELETE FROM past_forecast')
  await app.sql('DELETE FROM ability_fit')
  const problems: unknown[] = []
  const options = { lookMs: 100, restMs: 0 }
  const setting = { url: app.databaseUrl, timeZone: 'UTC' }
  const keepers = [1, 2].map(() => keepFits(setting, (problem) => problems.push(problem), options))
  await expect
    .poll(async () => (await app.sql<{ n: number }>('SELECT count(*)::int AS n FROM past_forecast'))[0]!.n, {
      timeout: 90_000,
      interval: 300,
    })
    .toBeGreaterThan(50)
  await Promise.all(keepers.map((keeper) => keeper.close()))
  expect(problems).toEqual([])
})
