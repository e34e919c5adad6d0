import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Certification } from '../../../server/contract/standards/certifications.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { makeCertification, makeSoldier, makeStandard, makeUnit, putSheet } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { outcomeOnly, times } from '../../support/sheet-body.ts'

let test: TestApp
let standard: string
let other: string
beforeAll(async () => {
  test = await buildTestApp()
  standard = await makeStandard(test.office)
  other = await makeStandard(test.office)
})
afterAll(() => test.close())

const NOBODY = '8f6a2f0e-1c1f-4f66-9d43-1f8b8f0a3c11'
const body = (more: object = {}) => ({
  code: 'Saber',
  title: 'Saber',
  standards: [standard],
  effectiveFrom: '2026-01-01',
  ...more,
})
const listed = async (code: string) =>
  (await pagesOf<Certification>(test.office, '/api/certifications', 500)).find((one) => one.code === code)

describe('a certification', () => {
  it('is created with defaults and listed with its terms', async () => {
    const { id } = await test.office.post('/api/certifications', body())
    expect(await listed('Saber')).toEqual({
      id,
      code: 'Saber',
      title: 'Saber',
      standards: [standard],
      arms: [],
      sequence: 'any',
      windowDays: 90,
      validityMonths: 12,
      waitDays: 7,
      dueDays: 30,
      reviewAfter: 3,
      approval: 'none',
      extensionDays: 0,
      requiredOf: null,
      effectiveFrom: '2026-01-01',
    })
  })

  it('keeps standards in their order, arms, and who needs it', async () => {
    const unit = await makeUnit(test.office)
    const given = body({
      code: 'Full',
      standards: [other, standard],
      arms: ['sword', 'saber'],
      sequence: 'in-order',
      windowDays: 1,
      validityMonths: 600,
      waitDays: 0,
      dueDays: 0,
      reviewAfter: 1,
      approval: 'required',
      extensionDays: 30,
      requiredOf: { grades: ['SGT'], units: [unit] },
    })
    const { id } = await test.office.post('/api/certifications', given)
    expect(await listed('Full')).toEqual({ id, ...given })
  })

  it('posted again makes new terms from their day on, and answers with the same id', async () => {
    const code = 'Again'
    const { id } = await test.office.post('/api/certifications', body({ code }))
    const later = body({ code, title: 'New title', validityMonths: 6, effectiveFrom: '2026-04-01' })
    expect(await test.office.post('/api/certifications', later)).toEqual({ id })
    expect(await listed(code)).toMatchObject({ id, title: 'New title', validityMonths: 6, effectiveFrom: '2026-04-01' })
    const unitId = await makeUnit(test.office)
    const [candidateId, graderId] = [await makeSoldier(test.office, unitId), await makeSoldier(test.office, unitId)]
    const sheet = { standard, standardVersion: 1, arm: 'sword', candidateId, graderId, ...outcomeOnly('GO') }
    const validThrough = async (day: string) => {
      await putSheet(test.office, { ...sheet, ...times(day) })
      return (await readStatuses(test.office, candidateId, day)).find((one) => one.certification === code)!.validThrough
    }
    expect(await validThrough('2026-03-31')).toBe('2027-03-31')
    expect(await validThrough('2026-04-01')).toBe('2026-10-01')
    await test.office.post('/api/certifications', body({ code, validityMonths: 1, effectiveFrom: '2026-03-01' }))
    const statuses = await readStatuses(test.office, candidateId, '2026-03-31')
    expect(statuses.find((one) => one.certification === code)).toMatchObject({ validThrough: '2026-04-30' })
  })

  it('never changes its standards or arms, nor its terms of a day', async () => {
    const code = 'Fixed'
    await test.office.post('/api/certifications', body({ code, arms: ['sword'] }))
    for (const change of [
      { standards: [other] },
      { standards: [standard, other] },
      { arms: [] },
      { arms: ['saber'] },
    ]) {
      const again = body({ code, arms: ['sword'], effectiveFrom: '2026-04-01', ...change })
      const problem = await test.office.refused(409, 'POST', '/api/certifications', again)
      expect(problem.type).toBe('urn:reviewstand:problem:certification-differs')
    }
    const same = await test.office.refused(409, 'POST', '/api/certifications', body({ code, arms: ['sword'] }))
    expect(same.type).toBe('urn:reviewstand:problem:terms-exist')
    const terms = body({ code, arms: ['sword'], effectiveFrom: '2026-05-01' })
    const answers = await Promise.all(
      Array.from({ length: 4 }, () => test.office.tries('POST', '/api/certifications', terms)),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409])
  })

  it('is refused with what it must not be', async () => {
    const wrong: [object, string][] = [
      [{ standards: [] }, '/standards'],
      [{ standards: ['nothing'] }, '/standards/0'],
      [{ standards: [standard, standard] }, '/standards/1'],
      [{ code: 'a b' }, '/code'],
      [{ title: '' }, '/title'],
      [{ sequence: 'random' }, '/sequence'],
      [{ windowDays: 0 }, '/windowDays'],
      [{ validityMonths: 0 }, '/validityMonths'],
      [{ validityMonths: 1.5 }, '/validityMonths'],
      [{ waitDays: -1 }, '/waitDays'],
      [{ dueDays: '30' }, '/dueDays'],
      [{ reviewAfter: 0 }, '/reviewAfter'],
      [{ requiredOf: { grades: [], units: [NOBODY] } }, '/requiredOf/units/0'],
      [{ requiredOf: 'all' }, '/requiredOf'],
      [{ effectiveFrom: '2026-02-30' }, '/effectiveFrom'],
    ]
    const before = await countRows(test)
    for (const [change, pointer] of wrong) {
      const problem = await test.office.refused(422, 'POST', '/api/certifications', body({ code: 'Wrong', ...change }))
      expect(problem.errors, JSON.stringify(change)).toMatchObject([{ pointer }])
    }
    expect(await countRows(test)).toEqual(before)
  })

  it('made for standards that have sheets already certifies whom it would have', async () => {
    const own = await makeStandard(test.office)
    const unitId = await makeUnit(test.office)
    const [candidateId, graderId] = [await makeSoldier(test.office, unitId), await makeSoldier(test.office, unitId)]
    const sheet = { standard: own, standardVersion: 1, arm: null, candidateId, graderId, ...outcomeOnly('GO') }
    await putSheet(test.office, { ...sheet, ...times('2026-02-02') })
    const code = await makeCertification(test.office, { standards: [own] })
    const statuses = await readStatuses(test.office, candidateId, '2026-02-02')
    expect(statuses.find((one) => one.certification === code)).toMatchObject({
      status: 'certified',
      awardedOn: '2026-02-02',
      validThrough: '2027-02-02',
    })
  })
})

describe('the list of certifications', () => {
  it('comes in pages, each once, whatever the case of the codes', async () => {
    for (const code of ['b', 'A', 'a', 'B', 'a-1', 'a.1', '0'])
      await makeCertification(test.office, { code, standards: [standard] })
    const codes = async (limit: number) =>
      (await pagesOf<Certification>(test.office, '/api/certifications', limit)).map(({ code }) => code)
    const all = await codes(500)
    expect(new Set(all).size).toBe(all.length)
    for (const limit of [1, 3, all.length]) expect(await codes(limit)).toEqual(all)
  })
})
