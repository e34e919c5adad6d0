import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ArmsAndGrades } from '../../../server/contract/arms-and-grades/arms-and-grades.ts'
import type { MeasureFindings } from '../../../server/contract/findings/findings.ts'
import type { FirstSteps } from '../../../server/contract/first-steps/first-steps.ts'
import type { SheetDetail, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import type { UnitLevels } from '../../../server/contract/soldiers/levels.ts'
import type { Soldier } from '../../../server/contract/soldiers/soldiers.ts'
import type { CertificationStatus, Readiness } from '../../../server/contract/standards/certifications.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeImporter } from '../../support/import-file.ts'
import { KINDS } from '../../support/kinds-of-units.ts'
import { times } from '../../support/sheet-body.ts'

describe.each(KINDS)('$what', ({ levels, lists, standard, terms, carries, just, notQuite }) => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ now: '2026-06-17T14:00:00Z' })
  })
  afterAll(() => test?.close())

  const people = async () =>
    new Map(
      (await test.office.get<{ items: Soldier[] }>('/api/soldiers')).items.map(({ rosterNumber, id }) => [
        rosterNumber,
        id,
      ]),
    )
  const sheetOf = async (candidate: string, marks: typeof just, day = '2026-06-16') => {
    const of = await people()
    const body = {
      standard: standard.code,
      standardVersion: 1,
      arm: carries,
      candidateId: of.get(candidate)!,
      sponsorId: of.get('102')!,
      graderId: of.get('103')!,
      ...times(day),
      ...marks,
    }
    const id = randomUUID()
    return { id, stored: await test.office.put<StoredSheet>(`/api/sheets/${id}`, body) }
  }

  it('says its levels, grades and arms in its own words', async () => {
    const { version } = await test.office.get<UnitLevels>('/api/unit-levels')
    await test.office.put('/api/unit-levels', { levels, version }, 200)
    const before = await test.office.get<ArmsAndGrades>('/api/arms-and-grades')
    await test.office.put('/api/arms-and-grades', { ...before, ...lists }, 200)
    expect(await test.office.get('/api/arms-and-grades')).toMatchObject(lists)
    const { steps } = await test.office.get<FirstSteps>('/api/first-steps')
    expect(steps.find(({ step }) => step === 'arms-and-grades')).toMatchObject({ done: true })
  })

  it('has its standard and terms', async () => {
    const { id } = await test.office.post('/api/standards', standard)
    await test.office.post(`/api/standards/${id}/publish`, undefined, 200)
    await test.office.post('/api/certifications', terms)
  })

  it('brings in its roster from a file, with the arms it has or none', async () => {
    const [top, below] = levels
    const { id } = await test.office.post('/api/units', { name: 'Harrow Bay', kind: top!.code, timeZone: 'UTC' })
    await test.office.post('/api/units', { name: 'First', kind: below!.code, parentId: id })
    const columns = [
      'Roster number',
      'Family name',
      'Given name',
      'Grade',
      ...(carries ? ['Arms'] : []),
      'Unit',
      'From',
    ]
    const rows = ['101', '102', '103', '104'].map((number, at) => [
      number,
      ['Amber', 'Birch', 'Cedar', 'Dogwood'][at]!,
      'Jo',
      lists.grades[at === 2 ? 1 : 0]!.code,
      ...(carries ? [carries] : []),
      'First',
      '2026-01-05',
    ])
    const importer = await makeImporter(test)
    const stored = await importer.all([columns, ...rows].map((row) => row.join(',')).join('\n'))
    expect(stored).toMatchObject({ state: 'stored', kind: 'roster' })
    const { items } = await test.office.get<{ items: Soldier[] }>('/api/soldiers')
    expect(items.map(({ arms }) => arms)).toEqual(rows.map(() => (carries ? [carries] : [])))
  })

  it('counts a sheet that is just enough, and certifies by it', async () => {
    const of = await people()
    await test.office.post(`/api/soldiers/${of.get('102')}/awards`, {
      certification: terms.code,
      awardedOn: '2026-02-01',
      validThrough: '2027-01-31',
      evidence: 'Paper record',
    })
    await test.office.post(`/api/soldiers/${of.get('103')}/appointments`, {
      standard: standard.code,
      from: '2026-01-05',
    })
    for (const candidate of ['101', '104']) {
      await test.office.post(`/api/soldiers/${of.get(candidate)}/sponsorships`, {
        sponsorId: of.get('102'),
        from: '2026-02-01',
      })
    }
    const { id, stored } = await sheetOf('101', just)
    expect(stored).toMatchObject({ state: 'counted', violations: [], result: { outcome: 'GO' } })
    expect(await test.office.get<SheetDetail>(`/api/sheets/${id}`)).toMatchObject({ arm: carries, flags: [] })
    const { items } = await test.office.get<{ items: CertificationStatus[] }>(`/api/soldiers/${of.get('101')}/status`)
    expect(items).toMatchObject([{ certification: terms.code, status: 'certified', validThrough: '2027-06-16' }])
  })

  it('does not certify by one trial less', async () => {
    const { stored } = await sheetOf('104', notQuite)
    expect(stored).toMatchObject({ state: 'counted', violations: [], result: { outcome: 'NO-GO' } })
    const { counts } = await test.office.get<Readiness>('/api/readiness?asOf=2026-06-17')
    const of = (status: string) =>
      counts.filter((one) => one.status === status).reduce((sum, { count }) => sum + count, 0)
    expect([of('certified'), of('retest due'), of('no test yet')]).toEqual([2, 1, 1])
  })

  it('finds what failed', async () => {
    const { items } = await test.office.get<MeasureFindings>(`/api/findings/measures?standard=${standard.code}`)
    const last = standard.minors.at(-1)!.code
    expect(items.find(({ measure }) => measure === last)).toMatchObject({ tested: 2 })
    expect(items.map(({ measure }) => measure).sort()).toEqual(standard.minors.map(({ code }) => code).sort())
  })
})
