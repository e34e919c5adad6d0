import { afterAll, beforeAll, describe, expect, it } from 'vitest'

import type { UnitCounts } from '../../../server/contract/readiness/unit-counts.ts'
import type { Readiness, Retest } from '../../../server/contract/standards/certifications.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver, makeCertification, makeSoldier, makeStandard, makeUnit, putSheet } from '../../support/factories.ts'
import { pagesOf } from '../../support/pages-of.ts'
import { outcomeOnly, times } from '../../support/sheet-body.ts'

let test: TestApp
let standard: string
let top: string
let company: string
let platoon: string
/** By what they are: two sergeants in the platoon, an officer in the company, a private at the top. */
let people: { certified: string; failing: string; officer: string; private: string }

beforeAll(async () => {
  test = await buildTestApp()
  const { office } = test
  standard = await makeStandard(office)
  top = await makeUnit(office)
  company = await makeUnit(office, { kind: 'company', parentId: top })
  platoon = await makeUnit(office, { kind: 'platoon', parentId: company })
  await makeCertification(office, { code: 'any', standards: [standard] })
  await makeCertification(office, { code: 'saber', standards: [standard], arms: ['saber'] })
  const requiredOf = { grades: ['SGT', '2LT'], units: [company] }
  await makeCertification(office, { code: 'strict', standards: [standard], requiredOf })
  people = {
    certified: await makeSoldier(office, platoon, { grade: 'SGT' }),
    failing: await makeSoldier(office, platoon, { grade: 'SGT' }),
    officer: await makeSoldier(office, company, { grade: '2LT', arms: ['saber'] }),
    private: await makeSoldier(office, top, { grade: 'PVT' }),
  }
  const sheet = { standard, standardVersion: 1, arm: 'sword', graderId: people.officer }
  await putSheet(office, { ...sheet, candidateId: people.certified, ...outcomeOnly('GO'), ...times('2026-02-02') })
  await putSheet(office, { ...sheet, candidateId: people.failing, ...outcomeOnly('NO-GO'), ...times('2026-02-02') })
})
afterAll(() => test.close())

const ready = (query: string) => test.office.get<Readiness>(`/api/readiness?${query}`)
const rows = ({ items }: Readiness) =>
  items.map(({ soldierId, certification, status, required }) => {
    const name = Object.entries(people).find(([, id]) => id === soldierId)?.[0]
    return `${name} ${certification} ${status}${required ? '' : ', not required'}`
  })

describe('who can stand', () => {
  it('is told of each soldier and each certification that fits, and who needs it', async () => {
    expect(rows(await ready('asOf=2026-03-01'))).toEqual([
      'certified any certified',
      'certified strict certified',
      'failing any retest due',
      'failing strict retest due',
      'officer any no test yet',
      'officer saber no test yet',
      'officer strict no test yet',
      'private any no test yet',
      'private strict no test yet, not required',
    ])
  })

  it('names all there is of a row', async () => {
    const { asOf, items, next } = await ready('asOf=2026-03-01&certification=any')
    expect([asOf, next]).toEqual(['2026-03-01', null])
    expect(items[0]).toEqual({
      soldierId: people.certified,
      rosterNumber: expect.stringMatching(/^R\d+$/),
      name: expect.stringMatching(/^Ashford, No\. \d+$/),
      grade: 'SGT',
      unitId: platoon,
      required: true,
      certification: 'any',
      status: 'certified',
      awardedOn: '2026-02-02',
      validThrough: '2027-02-02',
      suspended: false,
      toward: [],
      retestOpen: [],
      since: '2026-02-02',
      suspension: null,
      retests: [],
      booked: [],
    })
    expect(items[1]).toMatchObject({ status: 'retest due', retestOpen: [standard] })
  })

  it('is as of a day', async () => {
    expect(rows(await ready('asOf=2026-02-01&certification=any'))[0]).toBe('certified any no test yet')
    expect(rows(await ready('asOf=2027-02-02&certification=any'))[0]).toBe('certified any certified')
    expect(rows(await ready('asOf=2027-02-03&certification=any'))[0]).toBe('certified any lapsed')
    expect(rows(await ready('asOf=2019-12-31'))).toEqual([])
  })

  it('is of a unit and all below it', async () => {
    const whom = async (unitId: string) =>
      (await ready(`asOf=2026-03-01&certification=any&unitId=${unitId}`)).items.length
    expect([await whom(top), await whom(company), await whom(platoon)]).toEqual([4, 3, 2])
  })

  it('counts all, by the unit they are in, also where the page is short', async () => {
    const whole = await ready('asOf=2026-03-01&limit=500')
    const counts = new Map<string, number>()
    for (const { unitId, certification, status, required } of whole.items) {
      const key = JSON.stringify([unitId, certification, status, required])
      counts.set(key, (counts.get(key) ?? 0) + 1)
    }
    const told = whole.counts.map(({ count, unitId, certification, status, required }) => [
      JSON.stringify([unitId, certification, status, required]),
      count,
    ])
    expect(new Map(told as [string, number][])).toEqual(counts)
    expect((await ready('asOf=2026-03-01&limit=1')).counts).toEqual(whole.counts)
    for (const limit of [1, 2, 4, 9]) {
      expect(await pagesOf(test.office, '/api/readiness?asOf=2026-03-01', limit)).toEqual(whole.items)
    }
  })

  it('adds the counts up, with the first page alone', async () => {
    const whole = await ready('asOf=2026-03-01&limit=500')
    const totals = new Map<string, number>()
    for (const { certification, status, required } of whole.items) {
      const key = JSON.stringify([certification, status, required])
      totals.set(key, (totals.get(key) ?? 0) + 1)
    }
    const told = whole.totals.map(({ certification, status, required, count }): [string, number] => [
      JSON.stringify([certification, status, required]),
      count,
    ])
    expect(new Map(told)).toEqual(totals)
    const { next } = await ready('asOf=2026-03-01&limit=1')
    const second = await ready(`asOf=2026-03-01&limit=1&after=${next}`)
    expect([second.items.length, second.totals, second.counts, second.nextCounts]).toEqual([1, [], [], null])
  })

  it('shows who holds one that does not fit any more, as not required', async () => {
    const id = await makeSoldier(test.office, platoon, { grade: 'SGT', arms: ['saber'] })
    await carryOver(test.office, id, 'saber', { awardedOn: '2026-01-01', validThrough: '2026-04-30' })
    await test.office.post(`/api/soldiers/${id}/changes`, { from: '2026-03-01', arms: ['sword'] }, 200)
    const row = async (day: string) =>
      (await ready(`asOf=${day}&certification=saber&unitId=${platoon}`)).items.find((one) => one.soldierId === id)
    expect(await row('2026-02-28')).toMatchObject({ status: 'certified', required: true })
    expect(await row('2026-03-01')).toMatchObject({ status: 'certified', required: false })
    expect(await row('2026-05-01')).toBeUndefined()
  })

  it('follows people who move and leave', async () => {
    const id = await makeSoldier(test.office, platoon, { grade: 'SGT' })
    await test.office.post(`/api/soldiers/${id}/changes`, { from: '2026-03-01', unitId: top }, 200)
    await test.office.post(`/api/soldiers/${id}/changes`, { from: '2026-04-01', left: 'separated' }, 200)
    const strict = async (day: string) =>
      (await ready(`asOf=${day}&certification=strict`)).items.find((one) => one.soldierId === id)
    expect(await strict('2026-02-28')).toMatchObject({ unitId: platoon, required: true })
    expect(await strict('2026-03-31')).toMatchObject({ unitId: top, required: false })
    expect(await strict('2026-04-01')).toBeUndefined()
  })

  it('follows who needs it by the terms of the day', async () => {
    const code = await makeCertification(test.office, { standards: [standard], effectiveFrom: '2026-03-01' })
    const terms = { code, title: code, standards: [standard] }
    await test.office.post('/api/certifications', {
      ...terms,
      requiredOf: { grades: ['PVT'], units: null },
      effectiveFrom: '2026-05-01',
    })
    const who = async (day: string) =>
      (await ready(`asOf=${day}&certification=${code}&unitId=${top}`)).items
        .filter(({ required }) => required)
        .map(({ soldierId }) => soldierId)
    expect(await who('2026-02-01')).toContain(people.officer)
    expect(await who('2026-04-30')).toContain(people.officer)
    expect(await who('2026-05-01')).toEqual([people.private])
  })
})

describe('open retests', () => {
  const retests = (query: string) => pagesOf<Retest>(test.office, `/api/retests?${query}`, 500)

  it('are told by due date with all there is of them', async () => {
    const [first] = await retests(`asOf=2026-02-05&unitId=${platoon}`)
    expect(first).toEqual({
      soldierId: people.failing,
      certification: 'any',
      standard,
      attempt: 2,
      on: '2026-02-02',
      earliest: '2026-02-09',
      due: '2026-03-04',
      pastDue: false,
      noGosInARow: 1,
      needsReview: false,
      rosterNumber: expect.any(String),
      name: expect.any(String),
      grade: 'SGT',
      unitId: platoon,
    })
    expect((await retests('asOf=2026-03-04')).map(({ pastDue }) => pastDue)).not.toContain(true)
    expect((await retests('asOf=2026-03-05')).map(({ pastDue }) => pastDue)).not.toContain(false)
    expect(await retests('asOf=2026-02-01')).toEqual([])
    expect(await retests(`asOf=2026-02-05&soldierId=${people.officer}`)).toEqual([])
  })

  it('come in pages, by due date, each once', async () => {
    const sheet = { standard, standardVersion: 1, arm: 'saber', graderId: people.certified }
    for (let day = 1; day < 6; day++) {
      const candidateId = await makeSoldier(test.office, company, { arms: ['saber'] })
      const when = times(`2026-02-0${6 - Math.floor(day / 2)}`)
      await putSheet(test.office, { ...sheet, candidateId, ...outcomeOnly('NO-GO'), ...when })
    }
    const all = await retests('asOf=2026-02-20')
    expect(all.length).toBeGreaterThan(15)
    expect(all.map(({ due }) => due)).toEqual(all.map(({ due }) => due).sort())
    const key = (one: Retest) => `${one.soldierId} ${one.certification} ${one.standard}`
    expect(new Set(all.map(key)).size).toBe(all.length)
    for (const limit of [1, 2, 5])
      expect(await pagesOf(test.office, '/api/retests?asOf=2026-02-20', limit)).toEqual(all)
  })
})

describe('why somebody cannot stand', () => {
  const of = async (soldierId: string, day: string) =>
    (await ready(`asOf=${day}&certification=any`)).items.find((one) => one.soldierId === soldierId)

  it('says which test failed, by when to retest, and since when, through a moved due day', async () => {
    const { office } = test
    const id = await makeSoldier(office, platoon)
    const sheet = { standard, standardVersion: 1, arm: 'sword', graderId: people.officer, candidateId: id }
    await putSheet(office, { ...sheet, ...outcomeOnly('NO-GO'), ...times('2026-02-02') })
    await putSheet(office, { ...sheet, ...outcomeOnly('NO-GO'), ...times('2026-02-16') })
    const retests = [{ standard, on: '2026-02-16', earliest: '2026-02-23', due: '2026-03-18' }]
    expect(await of(id, '2026-03-01')).toMatchObject({ status: 'retest due', since: '2026-02-02', retests })
    expect(await of(id, '2026-02-01')).toMatchObject({ status: 'no test yet', since: null, retests: [] })
    const move = { certification: 'any', standard, due: '2099-04-01', reason: 'The drill field is closed.' }
    await office.post(`/api/soldiers/${id}/due-days`, move)
    expect(await of(id, '2026-03-01')).toMatchObject({ retests: [{ ...retests[0], due: '2099-04-01' }] })
  })

  it('says of a suspension from when and why, as of the day, and of a lapse since when', async () => {
    const { office } = test
    const id = await makeSoldier(office, platoon)
    await carryOver(office, id, 'any', { awardedOn: '2025-03-01', validThrough: '2026-03-31' })
    const suspension = { from: '2026-02-10', reason: 'Sore wrist' }
    const { id: which } = await office.post('/api/suspensions', { soldierId: id, certification: 'any', ...suspension })
    expect(await of(id, '2026-02-09')).toMatchObject({ status: 'certified', since: '2025-03-01', suspension: null })
    expect(await of(id, '2026-03-01')).toMatchObject({ status: 'suspended', since: '2026-02-10', suspension })
    await office.post(`/api/suspensions/${which}/lift`, { on: '2026-03-05', reason: 'Healed' }, 200)
    expect(await of(id, '2026-03-05')).toMatchObject({ status: 'certified', since: '2026-03-05', suspension: null })
    expect(await of(id, '2026-04-20')).toMatchObject({ status: 'lapsed', since: '2026-04-01', suspension: null })
  })

  it('says what is booked from today on, and not what was cancelled', async () => {
    const { office } = test
    const id = await makeSoldier(office, platoon)
    const day = async (on: string) => (await office.post('/api/test-days', { on, unitId: top })).id
    const testDayId = await day('2099-06-01')
    const booking = await office.post(`/api/test-days/${testDayId}/bookings`, { candidateId: id, standard })
    expect((await of(id, '2026-03-01'))?.booked).toEqual([{ standard, on: '2099-06-01', startsAt: null }])
    await office.post(`/api/bookings/${booking.id}/cancel`, { reason: 'On leave' }, 200)
    expect((await of(id, '2026-03-01'))?.booked).toEqual([])
  })
})

describe('the order of the list', () => {
  const SORTS = ['number', 'state', 'name', 'unit', 'valid'] as const
  const IN_ORDER = ['certified', 'part way', 'retest due', 'lapsed', 'suspended', 'no test yet']

  it('is by state where asked for, and the other way round', async () => {
    const places = async (sort: string) =>
      (await ready(`asOf=2026-03-01&limit=500&sort=${sort}`)).items.map(({ status }) => IN_ORDER.indexOf(status))
    const up = await places('state')
    expect(new Set(up).size).toBeGreaterThan(2)
    expect(up).toEqual([...up].sort((a, b) => a - b))
    expect(await places('-state')).toEqual([...up].reverse())
  })

  it.each(SORTS.flatMap((sort) => [sort, `-${sort}`]))('by %s has everybody once, page by page', async (sort) => {
    const address = `/api/readiness?asOf=2026-03-01&sort=${sort}`
    const whole = (await ready(`asOf=2026-03-01&sort=${sort}&limit=500`)).items
    expect(whole).toHaveLength((await ready('asOf=2026-03-01&limit=500')).items.length)
    expect(await pagesOf(test.office, address, 3)).toEqual(whole)
  })

  it('by unit is as people count, companies before their platoons', async () => {
    const { office } = test
    const parent = await makeUnit(office, { name: 'Z Company', kind: 'company', parentId: top })
    for (const name of ['10th Platoon', '2nd Platoon']) {
      await makeSoldier(office, await makeUnit(office, { name, kind: 'platoon', parentId: parent }))
    }
    await makeSoldier(office, parent)
    const items = (await ready(`asOf=2026-03-01&certification=any&unitId=${parent}&sort=unit`)).items
    const units = await office.get<{ items: { id: string; name: string }[] }>('/api/units?limit=500')
    expect(items.map(({ unitId }) => units.items.find(({ id }) => id === unitId)?.name)).toEqual([
      'Z Company',
      '2nd Platoon',
      '10th Platoon',
    ])
  })

  it('is of those who cannot stand though they must, or of those who can; the counts stay', async () => {
    const all = await ready('asOf=2026-03-01&limit=500')
    const cannot = await ready('asOf=2026-03-01&limit=500&standing=cannot')
    const can = await ready('asOf=2026-03-01&limit=500&standing=can')
    const must = all.items.filter(({ status, required }) => required || status !== 'no test yet')
    expect(cannot.items).toEqual(must.filter(({ status }) => status !== 'certified'))
    expect(can.items).toEqual(must.filter(({ status }) => status === 'certified'))
    expect([cannot.counts, can.counts]).toEqual([all.counts, all.counts])
    await test.office.refused(400, 'GET', '/api/readiness?sort=luck')
  })
})

describe('the counts of many units', () => {
  it('are told in the order of the tree, further ones where the first end', async () => {
    const { office } = test
    const tops = [await makeUnit(office), await makeUnit(office)]
    for (const [at, parentId] of tops.entries()) {
      for (let n = 1; n <= 15; n++) {
        const name = `${16 - n} Platoon of ${at}`
        await makeSoldier(office, await makeUnit(office, { kind: 'platoon', parentId, name }))
      }
      await makeSoldier(office, parentId)
    }
    const flat = (units: readonly UnitCounts[]) =>
      units.flatMap(({ unitId, counts }) => counts.map((count) => ({ unitId, ...count })))
    for (const unitId of [undefined, ...tops]) {
      const query = `asOf=2026-03-01&certification=any${unitId ? `&unitId=${unitId}` : ''}`
      const path = `/api/readiness/units?${query}`
      const list = async (page: string) => (await office.get<{ items: UnitCounts[] }>(`${path}${page}`)).items
      const all = await list('&limit=500')
      for (const limit of [1, 7, 31]) expect(await pagesOf(office, path, limit)).toEqual(all)
      const sorted = (await ready(`${query}&limit=500&sort=unit`)).items.map((item) => item.unitId)
      expect(all.map((one) => one.unitId)).toEqual([...new Set(sorted)])
      const first = await ready(query)
      expect(new Set(first.counts.map((one) => one.unitId)).size).toBe(Math.min(all.length, 24))
      const further = first.nextCounts === null ? [] : await list(`&limit=500&after=${first.nextCounts}`)
      expect([...first.counts, ...flat(further)]).toEqual(flat(all))
    }
  })
})
