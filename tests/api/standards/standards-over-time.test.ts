import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Requirements } from '../../../server/contract/readiness/requirements.ts'
import type { Effect } from '../../../server/contract/standards/effects.ts'
import type { Comparison, Standard } from '../../../server/contract/standards/standards.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import {
  carryOver,
  makeCertification,
  makeSoldier,
  makeStandard,
  makeTestSetting,
  makeUnit,
  putSheet,
} from '../../support/factories.ts'
import { shortStandard, times } from '../../support/sheet-body.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

interface Row {
  soldierId: string
  certification: string
  status: string
  validThrough: string | null
  required: boolean
}
const standings = async (day: string) =>
  new Map(
    (await test.office.get<{ items: Row[] }>(`/api/readiness?asOf=${day}&limit=500`)).items.map((row) => [
      `${row.soldierId} ${row.certification}`,
      { status: row.status, validThrough: row.validThrough, required: row.required },
    ]),
  )
/** What an effect says, by whom it is about. */
const said = ({ items }: Effect) =>
  Object.fromEntries(items.map((one) => [`${one.soldierId} ${one.certification}`, [one.before, one.after]]))
/** Whose standing is otherwise. */
const differences = (before: Map<string, object>, after: Map<string, object>) =>
  Object.fromEntries(
    [...new Set([...before.keys(), ...after.keys()])]
      .filter((key) => JSON.stringify(before.get(key)) !== JSON.stringify(after.get(key)))
      .map((key) => [key, [before.get(key) ?? null, after.get(key) ?? null]]),
  )

describe('a draft of a standard', () => {
  it('is changed only as it was read, where one says how that was', async () => {
    const body = shortStandard({ code: 'two-writers' })
    const { id } = await test.office.post('/api/standards', body)
    const path = `/api/standards/${id}`
    const seen = (await test.office.tries('GET', path)).headers.etag!
    const first = await test.office.tries('PUT', path, { ...body, title: 'First' }, { 'if-match': seen })
    expect(first).toMatchObject({ status: 200, body: { title: 'First' } })
    const late = { ...body, title: 'Late' }
    const problem = await test.office.refused(409, 'PUT', path, late, { 'if-match': seen })
    expect(problem.type).toBe('urn:reviewstand:problem:draft-changed')
    expect(await test.office.get(path)).toMatchObject({ title: 'First' })
    expect((await test.office.tries('GET', path)).headers.etag).toBe(first.headers.etag)
    for (const headers of [{ 'if-match': first.headers.etag! }, { 'if-match': '*' }, undefined]) {
      expect(await test.office.tries('PUT', path, late, headers)).toMatchObject({ status: 200, body: late })
    }
  })

  it('is changed and deleted as long as it is none, and compared with the version before', async () => {
    const code = await makeStandard(test.office)
    const body = shortStandard({ code, version: 2, effectiveFrom: '2026-09-01', title: 'Short standard, mended' })
    const { id } = await test.office.post('/api/standards', body)
    const changed = { ...body, rule: { trials: 3, needed: 3, percent: '60' }, minors: body.minors.slice(0, 2) }
    expect(await test.office.put(`/api/standards/${id}`, changed, 200)).toMatchObject({ id, publishedAt: null })
    expect(await test.office.get<Comparison>(`/api/standards/${id}/comparison`)).toEqual({
      with: 1,
      changes: [
        { part: 'rule', what: 'Correct trials needed', before: '2', after: '3' },
        { part: 'measures', what: 'Minor measure', before: 'Turn', after: null },
        { part: 'calls', what: 'Calls', before: '9 calls', after: '6 calls' },
        { part: 'text', what: 'The title', before: 'Short standard', after: 'Short standard, mended' },
      ],
    })
    await test.office.refused(422, 'PUT', `/api/standards/${id}`, { ...changed, version: 3 })
    await test.office.refused(422, 'PUT', `/api/standards/${id}`, { ...changed, gauges: [] })
    await test.office.tries('DELETE', `/api/standards/${id}`)
    await test.office.refused(404, 'GET', `/api/standards/${id}`)
    const again = await test.office.post('/api/standards', body)
    await test.office.post(`/api/standards/${again.id}/publish`, undefined, 200)
    await test.office.refused(409, 'PUT', `/api/standards/${again.id}`, changed)
    await test.office.refused(409, 'DELETE', `/api/standards/${again.id}`)
  })

  it('under which a test was taken stays as it is', async () => {
    const setting = await makeTestSetting(test.office)
    const body = shortStandard({ code: setting.standard, version: 2, effectiveFrom: '2026-05-01' })
    const { id } = await test.office.post('/api/standards', body)
    await putSheet(test.office, setting.sheet({ standardVersion: 2, ...times('2026-05-02') }))
    await test.office.refused(409, 'PUT', `/api/standards/${id}`, body)
    await test.office.refused(409, 'DELETE', `/api/standards/${id}`)
  })

  it('that was the only version takes its standard along', async () => {
    const { id } = await test.office.post('/api/standards', shortStandard({ code: 'short-lived' }))
    expect((await test.office.tries('DELETE', `/api/standards/${id}`)).status).toBe(204)
    const { items } = await test.office.get<{ items: Standard[] }>('/api/standards?limit=500')
    expect(items.map(({ code }) => code)).not.toContain('short-lived')
  })
})

describe('what a change would do', () => {
  it('is what it does when a version that is not equivalent is published, and nothing is stored before', async () => {
    const setting = await makeTestSetting(test.office)
    const march = await makeStandard(test.office)
    const both = await makeCertification(test.office, { standards: [setting.standard, march] })
    await carryOver(test.office, setting.sponsorId, both)
    await putSheet(test.office, setting.sheet(times('2026-05-20')))
    const next = shortStandard({
      code: setting.standard,
      version: 2,
      effectiveFrom: '2026-06-10',
      equivalentToPrevious: false,
    })
    const { id } = await test.office.post('/api/standards', next)
    const stored = await countRows(test)
    const effect = await test.office.post<Effect>(`/api/standards/${id}/effect`, {}, 200)
    expect(await countRows(test)).toEqual(stored)
    expect(effect).toMatchObject({ asOf: '2026-06-15', next: null })
    expect(said(effect)).toEqual({
      [`${setting.candidateId} ${both}`]: [
        { status: 'part way', validThrough: null, required: true },
        { status: 'no test yet', validThrough: null, required: true },
      ],
    })
    expect(effect.counts).toMatchObject([{ certification: both, before: 'part way', after: 'no test yet', count: 1 }])
    const before = await standings(effect.asOf)
    await test.office.post(`/api/standards/${id}/publish`, undefined, 200)
    expect(differences(before, await standings(effect.asOf))).toEqual(said(effect))
    expect(said(await test.office.post<Effect>(`/api/standards/${id}/effect`, {}, 200))).toEqual({})
  })

  it('is what it does when terms change: shorter validity, and required of others', async () => {
    const setting = await makeTestSetting(test.office)
    const { certification, standard, unitId } = setting
    const sergeant = await makeSoldier(test.office, unitId, { grade: 'SGT' })
    await makeSoldier(test.office, unitId, { grade: 'CPL' })
    await putSheet(test.office, setting.sheet(times('2026-03-02')))
    const terms = {
      code: certification,
      title: 'Certification',
      standards: [standard],
      validityMonths: 2,
      requiredOf: { grades: ['CPL'], units: null },
      effectiveFrom: '2026-03-01',
    }
    const ask = (query = '') => test.office.post<Effect>(`/api/certifications/effect${query}`, { terms }, 200)
    const effect = await ask('?limit=500')
    expect(said(effect)).toMatchObject({
      [`${setting.candidateId} ${certification}`]: [{ status: 'certified' }, { status: 'lapsed', required: false }],
      [`${sergeant} ${certification}`]: [{ required: true }, { required: false }],
    })
    const first = await ask('?limit=1')
    const second = await ask(`?limit=1&after=${first.next}`)
    expect([...first.items, ...second.items]).toEqual(effect.items.slice(0, 2))
    const before = await standings(effect.asOf)
    await test.office.post('/api/certifications', terms)
    expect(differences(before, await standings(effect.asOf))).toEqual(said(effect))
    const { items } = await test.office.get<{ items: { id: string; code: string; validityMonths: number }[] }>(
      '/api/certifications?limit=500',
    )
    const { id } = items.find(({ code }) => code === certification)!
    const all = await test.office.get<{ items: { validityMonths: number }[] }>(`/api/certifications/${id}/terms`)
    expect(all.items.map(({ validityMonths }) => validityMonths)).toEqual([2, 12])
  })

  it('is refused as the change would be', async () => {
    const code = await makeStandard(test.office, { effectiveFrom: '2026-05-01' })
    const { id } = await test.office.post(
      '/api/standards',
      shortStandard({ code, version: 2, effectiveFrom: '2026-04-01' }),
    )
    await test.office.refused(422, 'POST', `/api/standards/${id}/effect`, {})
    const terms = { code: 'x', title: 'X', standards: ['nothing'], effectiveFrom: '2026-01-01' }
    await test.office.refused(422, 'POST', '/api/certifications/effect', { terms })
  })
})

describe('requirements', () => {
  it('count by unit and grade who must hold what on a day, and who does', async () => {
    const unitId = await makeUnit(test.office)
    const standard = await makeStandard(test.office)
    const certification = await makeCertification(test.office, {
      standards: [standard],
      requiredOf: { grades: ['SGT'], units: [unitId] },
    })
    const [one, , private_] = [
      await makeSoldier(test.office, unitId, { grade: 'SGT' }),
      await makeSoldier(test.office, unitId, { grade: 'SGT', from: '2026-06-01' }),
      await makeSoldier(test.office, unitId, { grade: 'PVT' }),
    ]
    for (const id of [one, private_]) await carryOver(test.office, id, certification)
    const of = async (asOf: string) =>
      (await test.office.get<Requirements>(`/api/requirements?asOf=${asOf}&unitId=${unitId}&limit=500`)).items
        .filter((row) => row.certification === certification)
        .map(({ grade, people, required, certified, others }) => [grade, people, required, certified, others])
    expect(await of('2026-06-15')).toEqual([
      ['PVT', 1, 0, 0, 1],
      ['SGT', 2, 2, 1, 0],
    ])
    expect(await of('2026-05-15')).toEqual([
      ['PVT', 1, 0, 0, 1],
      ['SGT', 1, 1, 1, 0],
    ])
  })
})
