import fs from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Standard, StandardBody } from '../../../server/contract/standards/standards.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { makeStandard } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { shortStandard } from '../../support/sheet-body.ts'

const STANDING = JSON.parse(fs.readFileSync(new URL('../../cases/standard-standing.json', import.meta.url), 'utf8'))

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

const post = (body: object) => test.office.post('/api/standards', body)
const publish = (id: string) => test.office.post<Standard>(`/api/standards/${id}/publish`, undefined, 200)

describe('a standard', () => {
  it('is stored as a draft and read as it was given', async () => {
    const { id } = await post(STANDING)
    expect(await test.office.get(`/api/standards/${id}`)).toMatchObject({ ...STANDING, id, publishedAt: null })
  })

  it('calls each measure its trials running where it says nothing of calls, and has defaults', async () => {
    const minimal = {
      code: 'minimal',
      title: 'Minimal',
      minors: [{ code: 'm', title: 'M' }],
      effectiveFrom: '2026-01-01',
    }
    const { id } = await post(minimal)
    expect(await test.office.get(`/api/standards/${id}`)).toMatchObject({
      version: 1,
      arms: [],
      rule: { trials: 3, needed: 2, percent: '80' },
      majors: [],
      gauges: [],
      calls: [1, 2, 3].map((trial) => ({ measure: 'm', trial })),
      equivalentToPrevious: true,
    })
  })

  it('is frozen by publishing, and publishing again changes nothing', async () => {
    const { id } = await post(shortStandard({ code: 'frozen' }))
    const published = await publish(id)
    expect(published).toMatchObject({ id, code: 'frozen', publishedAt: '2026-06-15T12:00:00Z' })
    const before = await countRows(test)
    test.clock.now = new Date(test.clock.now.getTime() + 60_000)
    expect(await publish(id)).toEqual(published)
    expect(await countRows(test)).toEqual(before)
  })

  it('has each version once, also when two are sent at once', async () => {
    const body = shortStandard({ code: 'versions' })
    await post(body)
    const problem = await test.office.refused(409, 'POST', '/api/standards', body)
    expect(problem.type).toBe('urn:reviewstand:problem:version-used')
    const second = { ...body, version: 2, effectiveFrom: '2026-01-01' }
    const answers = await Promise.all(
      Array.from({ length: 5 }, () => test.office.tries('POST', '/api/standards', second)),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409, 409])
  })

  it('publishes versions in the order of their days only', async () => {
    const version = (number: number, effectiveFrom: string) =>
      post(shortStandard({ code: 'order', version: number, effectiveFrom }))
    const first = await version(1, '2026-01-01')
    const same = await version(2, '2026-01-01')
    const third = await version(3, '2026-03-01')
    const late = await version(4, '2026-02-01')
    await publish(first.id)
    await publish(third.id)
    for (const { id } of [same, late]) {
      const problem = await test.office.refused(422, 'POST', `/api/standards/${id}/publish`)
      expect(problem.errors).toMatchObject([{ pointer: '/effectiveFrom', rule: 'versions-out-of-order' }])
    }
  })

  it('is refused where it contradicts itself or is out of bounds', async () => {
    const body = shortStandard({ code: 'wrong' })
    const [draw, halt, turn] = body.minors
    const [gauge] = body.gauges!
    const wrong: [object, string][] = [
      [{ code: 'a b' }, '/code'],
      [{ code: '' }, '/code'],
      [{ version: 0 }, '/version'],
      [{ version: 1.5 }, '/version'],
      [{ title: ' ' }, '/title'],
      [{ minors: [] }, '/minors'],
      [{ minors: [draw, halt, turn, draw] }, '/minors/3/code'],
      [{ minors: [{ ...draw, gauges: ['nothing'] }, halt, turn] }, '/minors/0/gauges/0'],
      [{ gauges: [{ ...gauge, min: '7' }] }, '/gauges/0/max'],
      [{ gauges: [{ ...gauge, min: 4 }] }, '/gauges/0/min'],
      [{ gauges: [{ ...gauge, min: '12345' }] }, '/gauges/0/min'],
      [{ gauges: [{ ...gauge, low: 'nothing' }] }, '/minors/1/gauges/0'],
      [{ rule: { trials: 2, needed: 3, percent: '80' } }, '/rule/needed'],
      [{ rule: { trials: 0, needed: 0 } }, '/rule/trials'],
      [{ rule: { percent: '0' } }, '/rule/percent'],
      [{ rule: { percent: '100.1' } }, '/rule/percent'],
      [{ rule: { percent: '66.6666667' } }, '/rule/percent'],
      [{ rule: { percent: '1e1' } }, '/rule/percent'],
      [{ calls: [{ measure: 'draw', trial: 4 }] }, '/calls/0'],
      [{ calls: [{ measure: 'draw', trial: 1 }] }, '/calls'],
      [{ effectiveFrom: '2026-02-30' }, '/effectiveFrom'],
      [{ effectiveFrom: undefined }, '/effectiveFrom'],
      [{ equivalentToPrevious: 'no' }, '/equivalentToPrevious'],
      [{ arms: 'sword' }, '/arms'],
    ]
    const before = await countRows(test)
    for (const [change, pointer] of wrong) {
      const problem = await test.office.refused(422, 'POST', '/api/standards', { ...body, ...change })
      expect(
        problem.errors?.map((one) => one.pointer),
        JSON.stringify(change),
      ).toContain(pointer)
    }
    expect(await countRows(test)).toEqual(before)
  })

  it('keeps its percentage as given, as text or as a number, and scores by it exactly', async () => {
    for (const [code, percent] of [
      ['text', '66.7'],
      ['number', 66.7],
      ['whole', 100],
    ] as const) {
      const { id } = await post(shortStandard({ code, rule: { trials: 3, needed: 2, percent } }))
      expect(await test.office.get(`/api/standards/${id}`)).toMatchObject({ rule: { percent } })
    }
  })
})

describe('the list of standards', () => {
  it('has all versions in pages, each once, in a lasting order, whatever the case of the codes', async () => {
    for (const code of ['b', 'A', 'a', 'B', 'a-1', 'a.1', 'a_1', '0']) {
      await post(shortStandard({ code }))
      await makeStandard(test.office, { code, version: 10, effectiveFrom: '2026-02-01' })
      await post(shortStandard({ code, version: 9 }))
    }
    const key = ({ code, version }: Standard) => `${code} ${version}`
    const all = await pagesOf<Standard>(test.office, '/api/standards', 500)
    expect(new Set(all.map(key)).size).toBe(all.length)
    expect(all.filter(({ code }) => code === 'a').map(({ version }) => version)).toEqual([1, 9, 10])
    for (const limit of [1, 4, 5]) {
      expect((await pagesOf<Standard>(test.office, '/api/standards', limit)).map(key)).toEqual(all.map(key))
    }
    expect(all[0]).toEqual(await test.office.get(`/api/standards/${all[0]!.id}`))
  })
})

describe('what one may begin from', () => {
  it('is stored as a draft as it is, marked as common practice to be checked', async () => {
    const { items } = await test.office.get<{ items: StandardBody[] }>('/api/standards/beginnings')
    expect(items.length).toBeGreaterThanOrEqual(3)
    for (const body of items) {
      expect(StandardBody.parse(body)).toEqual(body)
      expect(body.references[0]!.title).toContain('check against your own manual')
      expect(JSON.stringify(body)).not.toMatch(/demo|Calloway/)
      const { id } = await post({ ...body, code: `own-${body.code}` })
      expect(await test.office.get(`/api/standards/${id}`)).toMatchObject({ calls: body.calls, publishedAt: null })
    }
  })
})
