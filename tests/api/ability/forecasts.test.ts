import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createRandom } from '../../../seed/generate/random.ts'
import { refreshFits } from '../../../server/ability/services/refresh-fits.ts'
import { createContext } from '../../../server/context/create-context.ts'
import type { Forecasts, ListedForecasts } from '../../../server/contract/ability/forecasts.ts'
import type { ForecastFindings } from '../../../server/contract/findings/forecast.ts'
import { keepFits } from '../../../server/process/start/keep-fits.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeSoldier, makeTestSetting } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

type Setting = Awaited<ReturnType<typeof makeTestSetting>>

let app: TestApp
let settings: Setting[]
const context = () => createContext({ db: app.db, clock: () => app.clock.now, timeZone: 'UTC' })
const list = (client: Client, tests: readonly { candidateId: string; standard: string }[], query = '') =>
  client.get<ListedForecasts>(
    `/api/forecasts?tests=${tests.map(({ candidateId, standard }) => `${candidateId}:${standard}`).join(',')}${query}`,
  )
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

describe('many at once', () => {
  test('are those of each alone, in the order asked for', async () => {
    const asked = [settings[7]!, settings[0]!, settings[22]!]
    const { items } = await list(app.office, asked, '&drill=true')
    expect(items.map(({ soldierId }) => soldierId)).toEqual(asked.map(({ candidateId }) => candidateId))
    for (const { soldierId, ...one } of items) {
      const [{ sheetIds: _, ...alone }] = (await read(soldierId)).items as [Forecasts['items'][number]]
      expect(one).toEqual(alone)
    }
    const brief = (await list(app.office, asked)).items[0]!
    expect(brief).not.toHaveProperty('drill')
    expect(brief.pass).toBe(items[0]!.pass)
  })

  test('know of who was never tested the kind of attempt and the measures, and say so widely', async () => {
    const { unitId, standard } = settings[0]!
    const candidateId = await makeSoldier(app.office, unitId)
    const [unknown, known] = (await list(app.office, [{ candidateId, standard }, settings[15]!])).items
    expect(unknown).toMatchObject({ kind: 'first', sheets: 0 })
    expect(unknown!.high - unknown!.low).toBeGreaterThan(known!.high - known!.low)
    expect(unknown!.pass).toBeGreaterThan(0)
  })

  test('know in the past what was there then', async () => {
    const { items } = await list(app.office, [settings[29]!], '&asOf=2026-03-01')
    expect(items[0]!.sheets).toBe(1)
  })

  test('leave out who cannot be seen, and what is no standard', async () => {
    const sponsor = await app.signedIn({ name: 'sponsor', roles: ['sponsor'], soldierId: settings[0]!.sponsorId })
    const stranger = await makeSoldier(app.office, settings[0]!.unitId)
    const asked = [settings[0]!, { candidateId: stranger, standard: settings[0]!.standard }]
    expect((await list(sponsor, asked)).items.map(({ soldierId }) => soldierId)).toEqual([settings[0]!.candidateId])
    expect((await list(app.office, [{ ...settings[0]!, standard: 'none' }])).items).toEqual([])
    const soldier = await app.signedIn({ name: 'soldier', roles: ['soldier'], soldierId: settings[1]!.candidateId })
    expect((await list(soldier, settings.slice(0, 5))).items.map(({ soldierId }) => soldierId)).toEqual([
      settings[1]!.candidateId,
    ])
  })

  test('are refused beyond a hundred, and where they are not named so', async () => {
    const { candidateId } = settings[0]!
    for (const tests of [Array(101).fill(`${candidateId}:x`).join(), candidateId, 'x:y', `${candidateId}:`, '']) {
      expect((await app.office.tries('GET', `/api/forecasts?tests=${tests}`)).status).toBe(400)
    }
  })
})

test('whoever is booked to grade somebody is given no forecast of them, whatever else they may see', async () => {
  const { candidateId, graderId, standard, unitId } = settings[4]!
  const both = await app.signedIn({ name: 'both', roles: ['office', 'grader'], soldierId: graderId })
  expect((await list(both, [settings[4]!, settings[5]!])).items).toHaveLength(2)
  const day = await app.office.post('/api/test-days', { on: '2026-07-20', place: 'Drill hall', unitId })
  const hours = { from: '10:00', to: '11:00', minutes: 60, graderIds: [graderId] }
  const { items: slots } = await app.office.post<{ items: { id: string }[] }>(`/api/test-days/${day.id}/slots`, hours)
  await app.office.post(`/api/test-days/${day.id}/bookings`, { candidateId, standard, slotId: slots[0]!.id })
  expect((await list(both, [settings[4]!, settings[5]!])).items.map(({ soldierId }) => soldierId)).toEqual([
    settings[5]!.candidateId,
  ])
  expect((await both.get<Forecasts>(`/api/soldiers/${candidateId}/forecasts`)).items).toEqual([])
  expect((await list(app.office, [settings[4]!])).items).toHaveLength(1)
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
