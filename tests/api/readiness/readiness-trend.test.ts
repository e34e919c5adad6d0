import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Lapse, ReadinessPoint } from '../../../server/contract/readiness/readiness.ts'
import type { Suspension } from '../../../server/contract/readiness/suspensions.ts'
import type { Readiness, Retest } from '../../../server/contract/standards/certifications.ts'
import { monthEnds } from '../../../server/domain/calendar/month-ends.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { beginWalk, type Walk } from '../../support/random-walk.ts'
import { seededRandom } from '../../support/shuffled.ts'

const STEPS = 60

let test: TestApp
let walk: Walk
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-07-01T12:00:00Z' })
  walk = await beginWalk(test, seededRandom(7))
  for (let step = 0; step < STEPS; step++) await walk.step()
})
afterAll(() => test.close())

const trend = async (query: string) =>
  (await test.office.get<{ items: ReadinessPoint[] }>(`/api/readiness/trend?${query}`)).items

/** What the look at one day says, added up by unit below `top` the long way. */
const recount = async (asOf: string, top: string | null): Promise<ReadinessPoint[]> => {
  const units = (await test.office.get<{ items: { id: string; parentId: string | null }[] }>('/api/units')).items
  const parent = new Map(units.map(({ id, parentId }) => [id, parentId]))
  const root = top ?? units.find(({ parentId }) => parentId === null)!.id
  const below = (unitId: string): string | null => {
    if (unitId === root) return null
    const above = parent.get(unitId)!
    return above === root ? unitId : below(above)
  }
  const { counts } = await test.office.get<Readiness>(`/api/readiness?asOf=${asOf}${top ? `&unitId=${top}` : ''}`)
  const sums = new Map<string, ReadinessPoint>()
  for (const { unitId, certification, status, required, count } of counts) {
    if (!required) continue
    const point = { asOf, unitId: below(unitId), certification, required: 0, certified: 0 }
    const key = `${certification} ${point.unitId ?? ''}`
    const sum = sums.get(key) ?? point
    sums.set(key, sum)
    sum.required += count
    if (status === 'certified') sum.certified += count
  }
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, point]) => point)
}

describe('the course of readiness', () => {
  it('says of each month end what the look at that day says, of every unit', async () => {
    const [from, to] = ['2025-11-20', '2026-06-17']
    for (const unitId of [null, ...walk.units]) {
      const items = await trend(`from=${from}&to=${to}${unitId ? `&unitId=${unitId}` : ''}`)
      const expected = []
      for (const day of monthEnds(from, to)) expected.push(...(await recount(day, unitId)))
      expect(items).toEqual(expected)
    }
    const whole = await trend(`from=${from}&to=${to}`)
    expect(whole.some(({ certified }) => certified > 0)).toBe(true)
    expect(new Set(whole.map(({ certified }) => certified)).size).toBeGreaterThan(1)
  })

  it('is of eighteen months up to today unless told otherwise, and of one certification where it is named', async () => {
    const items = await trend('certification=guard')
    expect(new Set(items.map(({ certification }) => certification))).toEqual(new Set(['guard']))
    expect(items.at(-1)?.asOf).toBe('2026-07-01')
    expect(await trend('certification=guard&from=2025-01-01&to=2026-07-01')).toEqual(items)
  })

  it('refuses a period that ends before it begins, or is too long, and says what to do', async () => {
    const backwards = await test.office.refused(422, 'GET', '/api/readiness/trend?from=2026-02-01&to=2026-01-01')
    expect(backwards.detail).toMatch(/mend from or to/)
    await test.office.refused(422, 'GET', '/api/readiness/trend?from=2020-01-01&to=2026-01-01')
    await trend('from=2023-06-30&to=2026-06-30')
  })
})

/** The retests open on a day, of everybody one after the other. */
const OPEN_RETESTS = `
  SELECT p.soldier_id::text AS "soldierId", c.code AS certification, s.code AS standard, r.on_day::text AS on,
    COALESCE(moved.due, r.due)::text AS due, p.unit_id::text AS "unitId"
  FROM soldier_period p JOIN soldier ON soldier.id = p.soldier_id CROSS JOIN certification c
  JOIN certification_standard cs ON cs.certification_id = c.id JOIN standard s ON s.id = cs.standard_id
  CROSS JOIN LATERAL (SELECT * FROM retest_span x WHERE x.soldier_id = p.soldier_id AND x.certification_id = c.id
    AND x.standard = s.code AND x.from_day <= $1::date ORDER BY x.from_day DESC LIMIT 1) r
  LEFT JOIN LATERAL (SELECT due FROM due_move m WHERE m.soldier_id = r.soldier_id AND m.certification_id = c.id
    AND m.standard = s.code AND m.on_day = r.on_day ORDER BY entry DESC LIMIT 1) moved ON true
  WHERE daterange(p.from_day, p.through_day, '[]') @> $1::date AND (cardinality(c.arms) = 0 OR c.arms && p.arms)
    AND (r.through_day IS NULL OR r.through_day >= $1::date)
  ORDER BY COALESCE(moved.due, r.due), soldier.roster_number, c.code, s.code`

describe('the retests open on a day', () => {
  it('are those found soldier by soldier, a due day moved or not, page after page, of any unit', async () => {
    const keyOf = ({ soldierId, certification, standard, on, due, unitId }: Retest) => ({
      soldierId,
      certification,
      standard,
      on,
      due,
      unitId,
    })
    const today = '2026-07-01'
    const [first] = await pagesOf<Retest>(test.office, `/api/retests?asOf=${today}`, 50)
    const { certification, standard } = first!
    const move = { certification, standard, due: '2027-02-01', reason: 'On a course' }
    await test.office.post(`/api/soldiers/${first!.soldierId}/due-days`, move)
    let found = 0
    for (const day of [...monthEnds('2025-11-20', '2026-06-17'), today, '2027-06-01']) {
      const expected = await test.sql<Retest>(OPEN_RETESTS, [day])
      const items = await pagesOf<Retest>(test.office, `/api/retests?asOf=${day}`, 3)
      expect(items.map(keyOf)).toEqual(expected.map(keyOf))
      for (const unitId of new Set(expected.map((one) => one.unitId))) {
        const own = await pagesOf<Retest>(test.office, `/api/retests?asOf=${day}&unitId=${unitId}`, 50)
        const below = await test.sql<{ id: string }>('SELECT id FROM unit WHERE lineage @> ARRAY[$1::uuid]', [unitId])
        const ids = below.map(({ id }) => id)
        expect(own.map(keyOf)).toEqual(expected.filter((one) => ids.includes(one.unitId)).map(keyOf))
      }
      found += items.length
    }
    expect(found).toBeGreaterThan(5)
  })
})

describe('who lapses', () => {
  it('are those certified today whose last day is near, the first to lapse first, page after page', async () => {
    for (const [at, soldierId] of walk.soldiers.slice(0, 4).entries()) {
      await carryOver(test.office, soldierId, 'drill', { awardedOn: '2026-06-20', validThrough: `2026-1${at % 3}-01` })
    }
    const today = await test.office.get<Readiness>('/api/readiness?limit=500')
    const expected = today.items
      .filter(({ status, validThrough }) => status === 'certified' && validThrough! <= '2026-12-31')
      .map(({ validThrough, rosterNumber, certification }) => `${validThrough} ${rosterNumber} ${certification}`)
      .sort()
    expect(expected.length).toBeGreaterThan(1)
    const found: string[] = []
    for (let after = ''; ; ) {
      const page = await test.office.get<{ items: Lapse[]; next: string | null }>(
        `/api/readiness/lapses?through=2026-12-31&limit=1${after}`,
      )
      found.push(...page.items.map((one) => `${one.validThrough} ${one.rosterNumber} ${one.certification}`))
      if (page.next === null) break
      after = `&after=${page.next}`
    }
    expect(found).toEqual(expected)
  })
})

describe('suspensions', () => {
  it('are listed with whom they concern, those not lifted first, and leave that place when lifted', async () => {
    const [soldierId] = walk.soldiers
    const body = { soldierId, certification: 'drill', from: '2026-06-30', reason: 'Uniform lost' }
    const { id } = await test.office.post('/api/suspensions', body)
    const list = () => test.office.get<{ items: Suspension[] }>('/api/suspensions?limit=500')
    const first = (await list()).items.find((one) => one.id === id)
    expect(first).toMatchObject({ soldierId, certification: 'drill', from: '2026-06-30', inForce: true, lift: null })
    await test.office.post(`/api/suspensions/${id}/lift`, { on: '2026-07-01', reason: 'Found' }, 200)
    const { items } = await list()
    expect(items.find((one) => one.id === id)).toMatchObject({
      inForce: false,
      lift: '2026-07-01',
      liftReason: 'Found',
    })
    const over = items.map(({ lift }) => lift !== null && lift <= '2026-07-01')
    expect(over).toEqual([...over].sort())
    const paged: string[] = []
    for (let after = ''; ; ) {
      const page = await test.office.get<{ items: Suspension[]; next: string | null }>(
        `/api/suspensions?limit=1${after}`,
      )
      paged.push(...page.items.map((one) => one.id))
      if (page.next === null) break
      after = `&after=${page.next}`
    }
    expect(paged).toEqual(items.map((one) => one.id))
  })
})
