import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { SheetDetail, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import type { Soldier, Unit } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { makeSoldier, makeTestSetting, makeUnit, putSheet, type TestSetting } from '../../support/factories.ts'
import { shortStandard, times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
})
afterAll(() => test.close())

let rowsBefore: Record<string, number>
beforeEach(async () => {
  rowsBefore = await countRows(test)
})
const nothingChanged = async () => expect(await countRows(test)).toEqual(rowsBefore)

const sheetPath = () => `/api/sheets/${randomUUID()}`

describe('the request as such', () => {
  it('of 2 MB is 413', async () => {
    const sheet = { ...setting.sheet(), notes: 'x'.repeat(2_000_000) }
    const problem = await test.office.refused(413, 'PUT', sheetPath(), sheet)
    expect(problem.type).toBe('urn:reviewstand:problem:body-too-large')
    await nothingChanged()
  })

  it('of another media type is 415', async () => {
    for (const type of ['text/plain', 'application/xml', 'application/x-www-form-urlencoded', 'multipart/form-data']) {
      const body = JSON.stringify(setting.sheet())
      const problem = await test.office.refused(415, 'PUT', sheetPath(), body, { 'content-type': type })
      expect(problem.type).toBe('urn:reviewstand:problem:media-type')
    }
    await nothingChanged()
  })

  it('says its charset if it likes', async () => {
    const headers = { 'content-type': 'application/json; charset=utf-8' }
    expect((await test.office.tries('PUT', sheetPath(), setting.sheet(), headers)).status).toBe(201)
  })

  it.each([
    ['cut off', '{"name": "A'],
    ['empty', ''],
    ['two values', '{}{}'],
    ['with a trailing comma', '{"name": "A",}'],
    ['with a comment', '{"name": "A" /* B */}'],
    ['as deep as a well', '['.repeat(300_000)],
    ['with another prototype', '{"name": "A", "kind": "unit", "__proto__": {"timeZone": "UTC"}}'],
    ['with a constructor', '{"constructor": {"prototype": {"x": 1}}}'],
  ])('whose JSON is %s is 400', async (_what, body) => {
    await test.office.refused(400, 'POST', '/api/units', body)
    await nothingChanged()
  })

  it.each(['[]', 'null', '7', '"sheet"', 'true'])('whose JSON is %s is 422', async (body) => {
    await test.office.refused(422, 'PUT', sheetPath(), body)
    await test.office.refused(422, 'POST', '/api/units', body)
    await nothingChanged()
  })
})

describe('unknown fields', () => {
  it('are refused in every body and named, also deep inside', async () => {
    const { office } = test
    const id = setting.candidateId
    const unknown = { colour: 'red' }
    const bodies: [string, object][] = [
      ['/api/units', { name: 'U', kind: 'unit' }],
      [
        '/api/soldiers',
        {
          rosterNumber: 'X',
          familyName: 'X',
          givenName: 'X',
          grade: 'SGT',
          unitId: setting.unitId,
          from: '2026-01-01',
        },
      ],
      [`/api/soldiers/${id}/changes`, { from: '2026-01-01', grade: 'SSG' }],
      [`/api/soldiers/${id}/sponsorships`, { sponsorId: setting.graderId, from: '2026-01-01' }],
      [`/api/soldiers/${id}/appointments`, { standard: setting.standard, from: '2026-01-01' }],
      [`/api/soldiers/${id}/reviews`, { standard: setting.standard, on: '2026-01-01' }],
      [`/api/soldiers/${id}/withdrawals`, { certification: setting.certification, on: '2026-01-01', reason: 'R' }],
      [
        `/api/soldiers/${id}/awards`,
        { certification: setting.certification, awardedOn: '2026-01-01', validThrough: '2026-02-01', evidence: 'E' },
      ],
      ['/api/suspensions', { soldierId: id, certification: setting.certification, from: '2026-01-01', reason: 'R' }],
      [`/api/suspensions/${randomUUID()}/lift`, { on: '2026-01-01', reason: 'R' }],
      [
        '/api/approvals',
        {
          decision: 'approve',
          items: [{ certification: setting.certification, sheetId: randomUUID() }],
        },
      ],
      [
        '/api/extensions',
        { soldierId: id, certification: setting.certification, days: 1, kind: 'injury', reason: 'R' },
      ],
      ['/api/standards', shortStandard({ code: 'unknown-fields' })],
      ['/api/certifications', { code: 'c', title: 'C', standards: [setting.standard], effectiveFrom: '2026-01-01' }],
      ['/api/sheets/score', setting.sheet()],
      [`/api/sheets/${randomUUID()}/decision`, { decision: 'count', reason: 'R' }],
      [`/api/sheets/${randomUUID()}/amendments`, { reason: 'R', sheet: setting.sheet() }],
      [
        '/api/ceremonies',
        {
          title: 'C',
          unitId: setting.unitId,
          startsAt: '2026-07-04T10:00:00Z',
          endsAt: '2026-07-04T11:00:00Z',
          posts: [{ title: 'P', row: 1, place: 1, certification: setting.certification }],
        },
      ],
      ['/api/test-days', { on: '2026-07-01', unitId: setting.unitId }],
    ]
    for (const [path, body] of bodies) {
      const problem = await office.refused(422, 'POST', path, { ...body, ...unknown })
      expect(problem.type, path).toBe('urn:reviewstand:problem:unknown-field')
      expect(problem.errors, path).toMatchObject([{ pointer: '/colour', rule: 'unknown-field' }])
    }
    await nothingChanged()
    const deep = setting.sheet({
      conditions: { uniform: true, equipment: true, sponsorPresent: true, ...unknown } as never,
    })
    const problem = await office.refused(422, 'PUT', sheetPath(), deep)
    expect(problem.errors).toMatchObject([{ pointer: '/conditions/colour', rule: 'unknown-field' }])
    await nothingChanged()
  })

  it('are refused in every list', async () => {
    for (const path of ['units', 'soldiers', 'standards', 'certifications', 'sheets', 'ceremonies', 'test-days']) {
      const problem = await test.office.refused(400, 'GET', `/api/${path}?colour=red`)
      expect(problem.type, path).toBe('urn:reviewstand:problem:unknown-field')
      expect(problem.errors, path).toMatchObject([{ pointer: 'colour' }])
    }
    for (const path of ['readiness', 'retests', 'findings/measures', 'findings/sponsors']) {
      await test.office.refused(400, 'GET', `/api/${path}?colour=red`)
    }
    await test.office.refused(400, 'GET', `/api/soldiers/${setting.candidateId}/status?colour=red`)
  })
})

describe('dates', () => {
  it.each(['2026-02-29', '2026-02-30', '2026-04-31', '2026-13-01', '2026-00-10', '2026-01-00', '1900-02-29'])(
    '%s, which is none, is refused',
    async (day) => {
      const { candidateId, standard } = setting
      const problem = await test.office.refused(422, 'POST', `/api/soldiers/${candidateId}/reviews`, {
        standard,
        on: day,
      })
      expect(problem.errors).toMatchObject([{ pointer: '/on' }])
      const asked = await test.office.refused(400, 'GET', `/api/readiness?asOf=${day}`)
      expect(asked.errors).toMatchObject([{ pointer: 'asOf' }])
      for (const finishedAt of [`${day}T10:00:00Z`, `${day}T10:00:00+02:00`]) {
        const sheet = setting.sheet({ startedAt: '2020-01-01T00:00:00Z', finishedAt })
        const told = await test.office.refused(422, 'PUT', sheetPath(), sheet)
        expect(told.errors).toMatchObject([{ pointer: '/finishedAt' }])
      }
      await nothingChanged()
    },
  )

  it.each([
    '2026-3-2',
    '20260302',
    '2026-03-02T00:00:00Z',
    '02.03.2026',
    'today',
    '',
    ' 2026-03-02',
    '+02026-03-02',
    '２０２６-03-02',
    '0205-03-02',
    '20260-03-02',
  ])('%j is not written as a date', async (day) => {
    const { candidateId, standard } = setting
    await test.office.refused(422, 'POST', `/api/soldiers/${candidateId}/reviews`, { standard, on: day })
    await test.office.refused(400, 'GET', `/api/readiness?asOf=${encodeURIComponent(day)}`)
    await nothingChanged()
  })

  it.each([
    '2026-03-02T10:00:00',
    '2026-03-02 10:00:00Z',
    '2026-03-02T24:00:00Z',
    '2026-03-02T10:60:00Z',
    '2026-03-02T10:00:61Z',
    '2026-03-02T10:00:00+25:00',
    '2026-03-02T10:00:00+0200',
    '2026-03-02',
    '1772445600000',
    1_772_445_600_000,
    null,
  ])('%j is no instant', async (finishedAt) => {
    const problem = await test.office.refused(422, 'PUT', sheetPath(), { ...setting.sheet(), finishedAt })
    expect(problem.errors).toMatchObject([{ pointer: '/finishedAt' }])
    await nothingChanged()
  })

  it('are stored from every offset there is', async () => {
    for (const [hour, offset] of [
      ['10', '+00:00'],
      ['10', '-00:00'],
      ['23', '+23:59'],
      ['00', '-23:59'],
      ['05', '+16:00'],
    ]) {
      const finishedAt = `2026-03-02T${hour}:00:00${offset}`
      const stored = await putSheet(test.office, setting.sheet({ startedAt: finishedAt, finishedAt }))
      const { day, ...sheet } = await test.office.get<SheetDetail>(`/api/sheets/${stored.id}`)
      expect(sheet).toMatchObject({ startedAt: finishedAt, finishedAt })
      expect(day).toBe(new Date(finishedAt).toISOString().slice(0, 10))
    }
  })

  it('finer than a thousandth of a second are stored or refused, never an error of ours', async () => {
    const second = '2026-03-02T10:00:00'
    const sheet = setting.sheet({ startedAt: `${second}.0001Z`, finishedAt: `${second}.0009Z` })
    expect((await test.office.tries('PUT', sheetPath(), sheet)).status).toBe(201)
    const turned = setting.sheet({ startedAt: `${second}.0009Z`, finishedAt: `${second}.0001Z` })
    expect((await test.office.tries('PUT', sheetPath(), turned)).status).toBeOneOf([201, 422])
    const late = setting.sheet({ startedAt: `${second}Z`, finishedAt: '2026-03-02T23:59:59.9996Z' })
    const { id } = await test.office.put<StoredSheet>(sheetPath(), late)
    expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ day: '2026-03-02' })
  })

  it('at the edge of what is allowed do not break the lists they are in', async () => {
    const west = await makeUnit(test.office, { timeZone: 'America/New_York' })
    const candidateId = await makeSoldier(test.office, west)
    for (const finishedAt of ['1900-01-01T00:00:00Z', '2200-12-31T23:59:59-12:00', '2200-06-01T10:00:00Z']) {
      const times = { startedAt: finishedAt, finishedAt }
      const body = setting.sheet({ candidateId, ...times, majors: [], minors: [], outcomeOnly: 'GO' })
      expect((await test.office.tries('PUT', sheetPath(), body)).status).toBeOneOf([201, 422])
    }
    await test.office.get('/api/sheets')
    await test.office.get(`/api/sheets?soldierId=${candidateId}`)
    await test.office.get(`/api/soldiers/${candidateId}/status?asOf=2200-12-31`)
    await test.office.get(`/api/readiness?unitId=${west}&asOf=2200-12-31`)
    await test.office.get(`/api/retests?unitId=${west}&asOf=2200-12-31`)
  })
})

describe('ids', () => {
  it.each(['nope', '1', '', '00000000-0000-0000-0000-00000000000g', '{3f0b6e1c-6f65-4f0a-9b0e-0d5f1b7c2a10}'])(
    '%j is no UUID',
    async (id) => {
      const path = encodeURIComponent(id)
      if (id !== '') {
        const problem = await test.office.refused(400, 'PUT', `/api/sheets/${path}`, setting.sheet())
        expect(problem.errors).toMatchObject([{ pointer: 'id' }])
        await test.office.refused(400, 'GET', `/api/soldiers/${path}/status`)
        await test.office.refused(400, 'POST', `/api/standards/${path}/publish`)
        await test.office.refused(400, 'GET', `/api/readiness?unitId=${path}`)
      }
      const problem = await test.office.refused(422, 'PUT', sheetPath(), setting.sheet({ graderId: id }))
      expect(problem.errors).toMatchObject([{ pointer: '/graderId' }])
      await nothingChanged()
    },
  )

  it('in upper case are the same ids', async () => {
    const id = randomUUID()
    const sheet = setting.sheet({ notes: 'upper case' })
    const stored = await test.office.put<StoredSheet>(`/api/sheets/${id.toUpperCase()}`, sheet)
    expect(stored.id).toBe(id)
    const shouted = {
      ...sheet,
      candidateId: setting.candidateId.toUpperCase(),
      graderId: setting.graderId.toUpperCase(),
      sponsorId: setting.sponsorId.toUpperCase(),
    }
    expect(await test.office.put(`/api/sheets/${id}`, shouted, 200)).toEqual(stored)
    expect(await test.office.get(`/api/sheets/${id.toUpperCase()}`)).toMatchObject({
      id,
      candidateId: setting.candidateId,
    })
    expect(await test.office.get(`/api/soldiers/${setting.candidateId.toUpperCase()}`)).toMatchObject({
      id: setting.candidateId,
    })
  })

  it('of all zeros or all ones are ids like any', async () => {
    const candidateId = await makeSoldier(test.office, setting.unitId)
    for (const id of ['00000000-0000-0000-0000-000000000000', 'ffffffff-ffff-ffff-ffff-ffffffffffff']) {
      const sheet = setting.sheet({ candidateId, majors: [], minors: [], outcomeOnly: 'NO-GO' })
      await test.office.put(`/api/sheets/${id}`, sheet)
      expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ id, outcomeOnly: 'NO-GO' })
      await test.office.refused(404, 'GET', `/api/findings/measures?unitId=${id}`)
      await test.office.refused(404, 'GET', `/api/readiness?unitId=${id}`)
    }
    const scored = await test.office.post(
      '/api/sheets/score',
      setting.sheet({ candidateId, ...times('2026-06-01') }),
      200,
    )
    expect(scored).toMatchObject({ result: { ending: 'completed', attempts: [{ number: 3 }] } })
  })

  it('that nobody has are refused with their place', async () => {
    const problem = await test.office.refused(422, 'PUT', sheetPath(), {
      ...setting.sheet({ candidateId: randomUUID(), graderId: randomUUID(), sponsorId: randomUUID() }),
      acknowledged: [{ soldierId: randomUUID(), at: '2026-03-02T10:00:00Z' }],
    })
    expect(problem.type).toBe('urn:reviewstand:problem:unknown-person')
    expect(problem.errors?.map(({ pointer }) => pointer)).toEqual([
      '/candidateId',
      '/sponsorId',
      '/graderId',
      '/acknowledged/0/soldierId',
    ])
    const unknown: [object, string, string][] = [
      [{ standard: 'no-such-standard' }, 'unknown-standard', '/standard'],
      [{ standardVersion: 99 }, 'unknown-standard-version', '/standardVersion'],
      [{ testDayId: randomUUID() }, 'unknown-test-day', '/testDayId'],
    ]
    for (const [change, rule, pointer] of unknown) {
      const told = await test.office.refused(422, 'PUT', sheetPath(), { ...setting.sheet(), ...change })
      expect(told.errors).toMatchObject([{ rule, pointer }])
    }
    const id = randomUUID()
    const itself = await test.office.refused(422, 'PUT', `/api/sheets/${id}`, setting.sheet({ secondOf: id }))
    expect(itself.errors).toMatchObject([{ pointer: '/secondOf' }])
    await nothingChanged()
  })

  it('that nobody has are 404 in an address', async () => {
    const id = randomUUID()
    const asked: ['GET' | 'POST', string, object?][] = [
      ['GET', `/api/soldiers/${id}`],
      ['GET', `/api/soldiers/${id}/status`],
      ['POST', `/api/soldiers/${id}/changes`, { from: '2026-01-01', grade: 'SSG' }],
      ['POST', `/api/soldiers/${id}/sponsorships`, { sponsorId: setting.sponsorId, from: '2026-01-01' }],
      ['POST', `/api/soldiers/${id}/appointments`, { standard: setting.standard, from: '2026-01-01' }],
      ['POST', `/api/soldiers/${id}/reviews`, { standard: setting.standard, on: '2026-01-01' }],
      [
        'POST',
        `/api/soldiers/${id}/withdrawals`,
        { certification: setting.certification, on: '2026-01-01', reason: 'Moved' },
      ],
      [
        'POST',
        `/api/soldiers/${id}/awards`,
        {
          certification: setting.certification,
          awardedOn: '2026-01-01',
          validThrough: '2026-02-01',
          evidence: 'Paper',
        },
      ],
      ['POST', `/api/suspensions/${id}/lift`, { on: '2026-01-01', reason: 'Closed' }],
      ['GET', `/api/standards/${id}`],
      ['POST', `/api/standards/${id}/publish`],
      ['GET', `/api/sheets/${id}`],
      ['POST', `/api/sheets/${id}/decision`, { decision: 'count', reason: 'Seen' }],
      ['POST', `/api/sheets/${id}/amendments`, { reason: 'Misread', sheet: setting.sheet() }],
      ['GET', `/api/ceremonies/${id}`],
      ['GET', `/api/readiness?unitId=${id}`],
      ['GET', `/api/retests?unitId=${id}`],
      ['GET', `/api/findings/measures?unitId=${id}`],
      ['GET', `/api/findings/sponsors?unitId=${id}`],
    ]
    for (const [method, path, body] of asked) await test.office.refused(404, method, path, body)
    await nothingChanged()
  })
})

describe('text', () => {
  const names = [
    `O'Neil "Quill" \\ back\\slash`,
    "Robert'); DROP TABLE soldier;--",
    '😀🎖️👨‍👩‍👧‍👦 family',
    'שלום مرحبا',
    '\u202eright to left',
    'Zoë Ångström ǅ',
    '長い名前',
    'line\nbreak\ttab\u0001',
    '<script>alert(1)</script>',
    '%s %d {{name}} $0',
    ' leading and trailing ',
    'x'.repeat(400),
    '😀'.repeat(200),
  ]

  it.each(names)('%j comes back as it went in', async (name) => {
    const soldier = { familyName: name, givenName: name, rosterNumber: name }
    const candidateId = await makeSoldier(test.office, setting.unitId, soldier)
    expect(await test.office.get(`/api/soldiers/${candidateId}`)).toMatchObject(soldier)
    const sheet = setting.sheet({ candidateId, notes: name })
    const { id } = await putSheet(test.office, sheet)
    expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ notes: name })
    expect(await test.office.put(`/api/sheets/${id}`, sheet, 200)).toMatchObject({ id })
    const [word] = name.split(/[\s,]+/).filter(Boolean)
    const found = await test.office.get<{ items: Soldier[] }>(
      `/api/soldiers?limit=500&q=${encodeURIComponent(word!.slice(0, 40).replace(/[\ud800-\udbff]$/, ''))}`,
    )
    expect(found.items.map((one) => one.id)).toContain(candidateId)
  })

  it.each([
    ['NUL', 'A\u0000B'],
    ['half a surrogate pair', 'A\ud800B'],
    ['the other half', '\udc00'],
    ['halves the wrong way round', '\udc00\ud800'],
  ])('with %s is refused in whatever field', async (_what, text) => {
    const { office } = test
    const person = {
      familyName: 'A',
      givenName: 'B',
      rosterNumber: 'C',
      grade: 'SGT',
      unitId: setting.unitId,
      from: '2026-01-01',
    }
    for (const field of ['familyName', 'givenName', 'rosterNumber', 'grade']) {
      const problem = await office.refused(422, 'POST', '/api/soldiers', { ...person, [field]: text })
      expect(problem.errors).toMatchObject([{ pointer: `/${field}` }])
    }
    await office.refused(422, 'POST', '/api/units', { name: text, kind: 'unit' })
    await office.refused(422, 'POST', '/api/units', { name: 'A', kind: 'unit', timeZone: text })
    await office.refused(422, 'PUT', sheetPath(), setting.sheet({ notes: text }))
    await office.refused(422, 'PUT', sheetPath(), setting.sheet({ arm: text }))
    await office.refused(422, 'PUT', sheetPath(), setting.sheet({ void: { kind: 'other', text } }))
    await office.refused(422, 'PUT', sheetPath(), { ...setting.sheet(), [text]: 1 })
    const standard = shortStandard({ code: 'hostile' })
    const [gauge] = standard.gauges!
    const checks = { preparatory: [{ code: 'c', title: 'C', kind: text }] }
    const standards = [
      { ...standard, title: text },
      { ...standard, task: text },
      { ...standard, gauges: [{ ...gauge, unit: text }] },
      { ...standard, gauges: [{ ...gauge, origin: text }] },
      { ...standard, minors: standard.minors.map((minor) => ({ ...minor, checks })) },
      { ...standard, calls: [{ measure: 'draw', trial: 1, cadence: text }] },
    ]
    for (const body of standards) await office.refused(422, 'POST', '/api/standards', body)
    await nothingChanged()
    await test.nobody.refused(422, 'POST', '/api/session', { name: text, password: 'x' })
  })

  it('that PostgreSQL would choke on is refused in a search too', async () => {
    for (const q of ['%00', 'A%00B']) await test.office.refused(400, 'GET', `/api/soldiers?q=${q}`)
    expect((await test.office.tries('GET', '/api/soldiers?q=%ff')).status).toBeOneOf([200, 400])
  })

  it('in a search means itself, not a pattern', async () => {
    const own = await makeUnit(test.office)
    await makeSoldier(test.office, own, { familyName: '50%' })
    await makeSoldier(test.office, own, { familyName: 'a_b' })
    await makeSoldier(test.office, own, { familyName: 'back\\slash' })
    const found = async (q: string) => {
      const path = `/api/soldiers?unitId=${own}&q=${encodeURIComponent(q)}`
      return (await test.office.get<{ items: Soldier[] }>(path)).items.map(({ familyName }) => familyName)
    }
    expect(await found('%')).toEqual(['50%'])
    expect(await found('_')).toEqual(['a_b'])
    expect(await found('\\')).toEqual(['back\\slash'])
    expect(await found("'")).toEqual([])
    expect(await found('ASHFORD')).toEqual([])
  })

  it('that is blank is no name and no reason', async () => {
    for (const blank of ['', ' ', '\t\n', '\u00a0', '\u2003']) {
      await test.office.refused(422, 'POST', '/api/units', { name: blank, kind: 'unit' })
      const decision = { decision: 'count', reason: blank }
      await test.office.refused(422, 'POST', `/api/sheets/${randomUUID()}/decision`, decision)
      const withdrawal = { certification: setting.certification, on: '2026-01-01', reason: blank }
      await test.office.refused(422, 'POST', `/api/soldiers/${setting.candidateId}/withdrawals`, withdrawal)
    }
    await nothingChanged()
  })
})

describe('paging', () => {
  const forged = (key: unknown) => Buffer.from(JSON.stringify(key)).toString('base64url')

  it.each(['0', '-1', '501', '1.5', 'x', '', 'NaN', '1e9', '9007199254740993'])(
    'limit=%s is refused',
    async (limit) => {
      for (const list of ['units', 'soldiers', 'standards', 'certifications', 'sheets', 'readiness', 'retests']) {
        const problem = await test.office.refused(400, 'GET', `/api/${list}?limit=${limit}`)
        expect(problem.errors?.[0], list).toMatchObject({ pointer: 'limit' })
      }
    },
  )

  it('refuses a cursor that no list gave out, and breaks at none', async () => {
    const id = randomUUID()
    const cursors = [
      'x',
      '',
      '%00',
      forged(null),
      forged([]),
      forged([1, 2, 3, 4, 5]),
      forged({ 0: 'a', 1: id, length: 2 }),
      forged(['a', 'b']),
      forged(['a\u0000', id]),
      forged(['\ud800', id]),
      forged([1e300, id]),
      forged([-1e300, id]),
      forged([Number.MAX_SAFE_INTEGER, id]),
      forged([8.64e15, id]),
      forged([0.5, id]),
      forged([1, `${id}'`]),
      forged(['2026-02-30', id]),
      forged(['2026-01-01', 'a', 'b', 'c']),
      forged(['2026-01-01T00:00:00Z', id]),
      forged(['2026-01-01T00:00:00+23:59', id]),
      forged([['a'], id]),
      'WzFd'.repeat(2000),
    ]
    const lists = [
      ...[
        'units',
        'soldiers',
        'standards',
        'certifications',
        'sheets',
        'readiness',
        'retests',
        'ceremonies',
        'test-days',
      ],
      `soldiers/${setting.candidateId}/status`,
      'findings/measures',
      'findings/sponsors',
    ]
    for (const list of lists) {
      for (const cursor of cursors) {
        const { status, body } = await test.office.tries('GET', `/api/${list}?after=${cursor}`)
        expect(status, `${list} ${cursor} ${JSON.stringify(body)}`).toBeOneOf([200, 400])
      }
      expect((await test.office.refused(400, 'GET', `/api/${list}?after=x`)).errors, list).toMatchObject([
        { pointer: 'after' },
      ])
    }
  })

  it('goes on past the longest names there can be', async () => {
    const names = ['"'.repeat(400), '\u0001'.repeat(400), '長'.repeat(400), '😀'.repeat(200)]
    for (const name of names) await makeUnit(test.office, { name })
    const numbers = names.map((name) => `#${name.slice(2)}`)
    for (const rosterNumber of numbers) await makeSoldier(test.office, setting.unitId, { rosterNumber })
    expect(await pagesOf<Unit>('/api/units?limit=1', ({ name }) => name)).toEqual(expect.arrayContaining(names))
    expect(await pagesOf<Soldier>('/api/soldiers?limit=1', ({ rosterNumber }) => rosterNumber)).toEqual(
      expect.arrayContaining(numbers),
    )
    await pagesOf('/api/readiness?limit=7', () => '')
  })

  async function pagesOf<Item>(path: string, of: (item: Item) => string): Promise<string[]> {
    const found: string[] = []
    for (let next: string | null = null, page = 0; page < 200; page++) {
      const answer: { items: Item[]; next: string | null } = await test.office.get(
        `${path}${next === null ? '' : `&after=${next}`}`,
      )
      found.push(...answer.items.map(of))
      next = answer.next
      if (next === null) return found
    }
    throw new Error(`${path}: no end`)
  }
})

describe('the clock of the device', () => {
  it.each(['yesterday', '', '1772445600', '2026-03-02', '2026-02-30T10:00:00Z', '2026-03-02T10:00:00', 'NaN'])(
    '%j cannot be read, and refuses no sheet',
    async (time) => {
      const answer = await test.office.tries('PUT', sheetPath(), setting.sheet(), { 'X-Device-Time': time })
      expect(answer).toMatchObject({ status: 201, body: { violations: [] } })
    },
  )

  it.each([
    ['2026-06-15T12:05:00Z', false],
    ['2026-06-15T12:05:00.001Z', true],
    ['2026-06-15T11:55:00Z', false],
    ['2026-06-15T11:54:59.999Z', true],
    ['2026-06-15T14:00:00+02:00', false],
    ['1900-01-01T00:00:00+00:00', true],
    ['2200-12-31T00:00:00Z', true],
  ])('at %s, when it is noon: skewed %s', async (time, isSkewed) => {
    const sheet = await test.office.tries('PUT', sheetPath(), setting.sheet(), { 'X-Device-Time': time })
    expect(sheet.status).toBe(201)
    const rules = (sheet.body as StoredSheet).violations.map(({ rule }) => rule)
    expect(rules.includes('clock-skew')).toBe(isSkewed)
  })
})
