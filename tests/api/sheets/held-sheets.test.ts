import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import type { ScoredSheet, SheetDetail, SheetPage, StoredSheet } from '../../../server/contract/sheets/sheets.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import {
  carryOver,
  makeCertification,
  makeGround,
  makeSoldier,
  makeStandard,
  makeTestSetting,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import { readStatuses } from '../../support/read-statuses.ts'
import { GO_MARKS, NO_GO_MARKS, outcomeOnly, type SheetInput, shortStandard, times } from '../../support/sheet-body.ts'

let test: TestApp
let office: Client
let second: Client
/** Who decides about held sheets, having neither entered nor amended them. */
let third: Client
beforeAll(async () => {
  test = await buildTestApp()
  office = test.office
  second = await test.signedIn({ name: 'second' })
  third = await test.signedIn({ name: 'third' })
})
afterAll(() => test.close())

const read = (id: string) => office.get<SheetDetail>(`/api/sheets/${id}`)
const record = (soldierId: string, kind: string, body: object) =>
  office.post(`/api/soldiers/${soldierId}/${kind}`, body)
const decide = (id: string, decision: 'count' | 'reject', client = third) =>
  client.tries('POST', `/api/sheets/${id}/decision`, { decision, reason: 'Seen' })
const statusOf = async (setting: TestSetting, soldierId: string, day: string) =>
  (await readStatuses(office, soldierId, day)).find((one) => one.certification === setting.certification)!.status
const newSoldier = ({ unitId }: TestSetting) => makeSoldier(office, unitId)

describe('a held sheet', () => {
  it('counts for nothing until the office counts it', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet({ sponsorId: null }))
    const figures = () => office.get<{ items: object[] }>(`/api/findings/measures?unitId=${setting.unitId}`)
    expect(await statusOf(setting, setting.candidateId, '2026-03-02')).toBe('no test yet')
    expect((await figures()).items).toEqual([])
    await decide(id, 'count')
    expect(await statusOf(setting, setting.candidateId, '2026-03-02')).toBe('certified')
    expect((await figures()).items).toHaveLength(3)
  })

  it('counts for nothing once it is rejected, and is decided about once', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet({ sponsorId: null }))
    expect((await decide(id, 'reject')).status).toBe(200)
    for (const decision of ['count', 'reject'] as const) expect((await decide(id, decision)).status).toBe(409)
    expect(await read(id)).toMatchObject({
      state: 'rejected',
      flags: [],
      waived: [],
      decisions: [{ decision: 'reject', reason: 'Seen', by: 'third', waived: [], at: test.clock.now.toISOString() }],
    })
    expect(await statusOf(setting, setting.candidateId, '2026-03-02')).toBe('no test yet')
  })

  it('stands in the list of those that are held, until decided', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet({ sponsorId: null }))
    const held = async () => (await office.get<z.infer<typeof SheetPage>>('/api/sheets?state=held&limit=500')).items
    expect((await held()).find((one) => one.id === id)).toMatchObject({
      state: 'held',
      violations: [{ rule: 'no-sponsor' }],
    })
    await decide(id, 'reject')
    expect((await held()).map((one) => one.id)).not.toContain(id)
  })

  it('is decided by one of many who decide at once', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet({ sponsorId: null }))
    const answers = await Promise.all(
      Array.from({ length: 8 }, (_, index) => decide(id, index % 2 ? 'count' : 'reject', index % 3 ? third : second)),
    )
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409, 409, 409, 409, 409])
    const { decisions, state } = await read(id)
    expect(decisions).toHaveLength(1)
    expect(state).toBe(decisions[0]!.decision === 'count' ? 'counted' : 'rejected')
  })

  it('whose test is neither waived nor counted is not decided: a counted one and a practice one', async () => {
    const setting = await makeTestSetting(office)
    const counted = await putSheet(office, setting.sheet())
    const practice = await putSheet(office, setting.sheet({ purpose: 'practice', graderId: setting.candidateId }))
    for (const { id } of [counted, practice]) expect((await decide(id, 'reject')).status).toBe(409)
  })
})

type Arrival = [
  what: string,
  sheet: (setting: TestSetting) => Promise<SheetInput>,
  arrive: (setting: TestSetting, sheet: SheetInput) => Promise<unknown>,
  terms?: { reviewAfter: number },
]

const ARRIVALS: Arrival[] = [
  [
    'the award of the grader',
    async (setting) => setting.sheet({ graderId: await newSoldier(setting) }),
    ({ certification }, { graderId }) => carryOver(office, graderId, certification),
  ],
  [
    'the appointment of the grader',
    async (setting) => setting.sheet({ graderId: await newSoldier(setting) }),
    ({ standard }, { graderId }) =>
      record(graderId, 'appointments', { standard, from: '2026-03-02', to: '2026-03-02' }),
  ],
  [
    'the sponsorship',
    async (setting) => {
      const sponsorId = await newSoldier(setting)
      await carryOver(office, sponsorId, setting.certification)
      return setting.sheet({ sponsorId })
    },
    (_setting, { candidateId, sponsorId }) => record(candidateId, 'sponsorships', { sponsorId, from: '2026-03-01' }),
  ],
  [
    'the award of the sponsor',
    async (setting) => {
      const sponsorId = await newSoldier(setting)
      await record(setting.candidateId, 'sponsorships', { sponsorId, from: '2026-01-01' })
      return setting.sheet({ sponsorId })
    },
    ({ certification }, { sponsorId }) => carryOver(office, sponsorId!, certification),
  ],
  [
    'the sheet that certifies the grader',
    async (setting) => setting.sheet({ graderId: await newSoldier(setting) }),
    ({ sheet }, { graderId }) =>
      putSheet(office, sheet({ candidateId: graderId, ...outcomeOnly('GO'), ...times('2026-03-01') })),
  ],
  [
    'the award that ends an earlier coaching',
    async (setting) => {
      await record(setting.candidateId, 'sponsorships', {
        sponsorId: setting.graderId,
        from: '2024-01-01',
        to: '2024-06-01',
      })
      return setting.sheet()
    },
    ({ certification }, { candidateId }) =>
      carryOver(office, candidateId, certification, { awardedOn: '2025-01-01', validThrough: '2025-06-01' }),
  ],
  [
    'the review',
    async (setting) => {
      await putSheet(office, setting.sheet({ ...times('2026-02-01'), ...NO_GO_MARKS }))
      return setting.sheet()
    },
    ({ standard }, { candidateId }) => record(candidateId, 'reviews', { standard, on: '2026-02-20' }),
    { reviewAfter: 1 },
  ],
  [
    'the withdrawal that ends an open retest',
    async (setting) => {
      await putSheet(office, setting.sheet({ ...times('2026-03-01'), ...NO_GO_MARKS }))
      return setting.sheet()
    },
    ({ certification }, { candidateId }) =>
      record(candidateId, 'withdrawals', { certification, on: '2026-03-01', reason: 'Left training' }),
  ],
  [
    'the earlier GO that closes the retest',
    async (setting) => {
      await putSheet(office, setting.sheet({ ...times('2026-02-01'), ...NO_GO_MARKS }))
      return setting.sheet()
    },
    (_setting, sheet) => putSheet(office, { ...sheet, ...outcomeOnly('GO'), ...times('2026-02-10') }),
    { reviewAfter: 1 },
  ],
  [
    'the version, published',
    async (setting) => {
      const draft = shortStandard({ code: setting.standard, version: 2, effectiveFrom: '2026-03-01' })
      await office.post('/api/standards', draft)
      return setting.sheet({ standardVersion: 2 })
    },
    async ({ standard }) => {
      const [version] = await test.sql<{ id: string }>(
        'SELECT v.id FROM standard_version v JOIN standard s ON s.id = v.standard_id WHERE s.code = $1 AND version = 2',
        [standard],
      )
      return office.post(`/api/standards/${version!.id}/publish`, undefined, 200)
    },
  ],
  [
    'the arm the candidate carries',
    async (setting) => setting.sheet({ arm: 'saber' }),
    (_setting, { candidateId }) =>
      office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-01-01', arms: ['saber'] }, 200),
  ],
  [
    'the lift of the sponsor’s suspension',
    async (setting) => {
      const { certification, sponsorId: soldierId } = setting
      await office.post('/api/suspensions', { soldierId, certification, from: '2026-01-01', reason: 'Inquiry' })
      return setting.sheet()
    },
    async (_setting, { sponsorId }) => {
      const [one] = await test.sql<{ id: string }>('SELECT id FROM suspension WHERE soldier_id = $1', [sponsorId])
      return office.post(`/api/suspensions/${one!.id}/lift`, { on: '2026-03-02', reason: 'Closed' }, 200)
    },
  ],
  [
    'new terms with a shorter wait',
    async (setting) => {
      await putSheet(office, setting.sheet({ ...times('2026-03-01'), ...NO_GO_MARKS }))
      return setting.sheet()
    },
    ({ certification: code, standard }) =>
      office.post('/api/certifications', {
        code,
        title: code,
        standards: [standard],
        waitDays: 1,
        effectiveFrom: '2026-02-15',
      }),
  ],
]

describe('a held sheet counts by itself', () => {
  it.each(ARRIVALS)('when %s arrives', async (_what, arrange, arrive, terms) => {
    const setting = await makeTestSetting(office, await makeGround(office, terms))
    const sheet = await arrange(setting)
    const stored = await putSheet(office, sheet)
    expect(stored).toMatchObject({ state: 'held' })
    expect(stored.violations).toHaveLength(1)
    test.clock.now = new Date(test.clock.now.getTime() + 1000)
    await arrive(setting, sheet)
    expect(await read(stored.id)).toMatchObject({
      state: 'counted',
      violations: [],
      flags: [],
      waived: [],
      decisions: [{ decision: 'count', by: 'Reviewstand', waived: [], at: test.clock.now.toISOString() }],
    })
  })

  it('not while anything else holds it', async () => {
    const setting = await makeTestSetting(office)
    const graderId = await newSoldier(setting)
    const { id } = await putSheet(office, setting.sheet({ graderId, sponsorId: null }))
    await carryOver(office, graderId, setting.certification)
    expect(await read(id)).toMatchObject({ state: 'held', violations: [{ rule: 'no-sponsor' }], decisions: [] })
  })

  it('nor once it is rejected', async () => {
    const setting = await makeTestSetting(office)
    const graderId = await newSoldier(setting)
    const { id } = await putSheet(office, setting.sheet({ graderId }))
    await decide(id, 'reject')
    await carryOver(office, graderId, setting.certification)
    expect(await read(id)).toMatchObject({ state: 'rejected', violations: [] })
  })
})

describe('a counted sheet', () => {
  it.each<[rule: string, (setting: TestSetting) => Promise<unknown>]>([
    [
      'grader-coached',
      ({ candidateId, graderId }) => record(candidateId, 'sponsorships', { sponsorId: graderId, from: '2026-02-01' }),
    ],
    [
      'grader-not-qualified',
      ({ graderId: soldierId, certification }) =>
        office.post('/api/suspensions', { soldierId, certification, from: '2026-03-01', reason: 'Inquiry' }),
    ],
    [
      'sponsor-not-certified',
      ({ sponsorId, certification }) =>
        carryOver(office, sponsorId, certification, { awardedOn: '2026-01-01', validThrough: '2026-02-01' }),
    ],
    ['too-early', ({ sheet }) => putSheet(office, sheet({ ...times('2026-03-01'), ...NO_GO_MARKS }))],
    [
      'arm-not-allowed',
      ({ candidateId }) =>
        office.post(`/api/soldiers/${candidateId}/changes`, { from: '2026-03-01', arms: ['rifle'] }, 200),
    ],
    [
      'standard-not-in-force',
      async ({ standard }) => {
        const next = shortStandard({ code: standard, version: 2, effectiveFrom: '2026-03-02' })
        const { id } = await office.post('/api/standards', next)
        return office.post(`/api/standards/${id}/publish`, undefined, 200)
      },
    ],
  ])('that turns out to violate %s is flagged, never undone', async (rule, turnOut) => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet())
    await turnOut(setting)
    expect(await read(id)).toMatchObject({ state: 'counted', flags: [rule], violations: [{ rule }], decisions: [] })
    expect(await statusOf(setting, setting.candidateId, '2026-03-02')).toBe('certified')
    expect((await decide(id, 'reject')).status).toBe(409)
  })

  it('loses the flag when it is valid again', async () => {
    const setting = await makeTestSetting(office)
    const { id } = await putSheet(office, setting.sheet())
    const early = await putSheet(office, setting.sheet({ ...times('2026-03-01'), ...NO_GO_MARKS }))
    expect(await read(id)).toMatchObject({ flags: ['too-early'] })
    await amend(office, second, early.id, setting.sheet({ ...times('2026-03-01') }))
    expect(await read(id)).toMatchObject({ state: 'counted', flags: [], violations: [] })
  })

  it('that overlaps another is flagged with it, and neither is refused; touching is no overlap', async () => {
    const setting = await makeTestSetting(office)
    const at = (startedAt: string, finishedAt: string) =>
      setting.sheet({
        startedAt: `2026-03-02T${startedAt}:00Z`,
        finishedAt: `2026-03-02T${finishedAt}:00Z`,
        ...outcomeOnly('GO'),
      })
    const [first, touching, over] = [
      await putSheet(office, at('09:00', '10:00')),
      await putSheet(office, at('10:00', '10:30')),
      await putSheet(office, at('10:15', '11:00')),
    ]
    expect(await Promise.all([first, touching, over].map(async ({ id }) => (await read(id)).flags))).toEqual([
      [],
      ['overlap'],
      ['overlap'],
    ])
    await amend(office, second, over!.id, at('10:30', '11:00'))
    expect((await read(touching!.id)).flags).toEqual([])
  })
})

describe('a chain over people', () => {
  it('is freed by the late sheet at its beginning, and flagged when that is amended, and restored by the reverse', async () => {
    const setting = await makeTestSetting(office)
    const links = [setting.candidateId]
    for (let count = 0; count < 4; count++) links.push(await newSoldier(setting))
    const [first, ...others] = links
    const ids: string[] = []
    for (const [index, candidateId] of others.entries()) {
      const sponsorId = links[index]!
      await record(candidateId, 'sponsorships', { sponsorId, from: '2026-01-01' })
      const sheet = setting.sheet({ candidateId, sponsorId, ...times('2026-03-10', 8 + index) })
      const stored = await putSheet(office, sheet)
      expect(stored).toMatchObject({ state: 'held', violations: [{ rule: 'sponsor-not-certified' }] })
      ids.push(stored.id)
    }
    const statuses = () => Promise.all(links.map((id) => statusOf(setting, id, '2026-03-10')))
    expect(await statuses()).toEqual(links.map(() => 'no test yet'))

    const late = await putSheet(office, setting.sheet({ candidateId: first!, ...times('2026-03-09') }))
    expect(await statuses()).toEqual(links.map(() => 'certified'))
    const byItself = { state: 'counted', flags: [], decisions: [{ by: 'Reviewstand' }] }
    for (const id of ids) expect(await read(id)).toMatchObject(byItself)

    await amend(office, second, late.id, setting.sheet({ candidateId: first!, ...times('2026-03-09'), ...NO_GO_MARKS }))
    expect(await statuses()).toEqual(['retest due', 'certified', 'certified', 'certified', 'certified'])
    expect(await read(ids[0]!)).toMatchObject({ state: 'counted', flags: ['sponsor-not-certified'] })
    expect(await read(ids[1]!)).toMatchObject(byItself)

    await amend(office, second, late.id, setting.sheet({ candidateId: first!, ...times('2026-03-09'), ...GO_MARKS }))
    expect(await statuses()).toEqual(links.map(() => 'certified'))
    for (const id of ids) expect(await read(id)).toMatchObject(byItself)
  })

  it('goes through graders as well, whatever the order in which the sheets arrive', async () => {
    const setting = await makeTestSetting(office)
    const [a, b, c] = [await newSoldier(setting), await newSoldier(setting), await newSoldier(setting)]
    for (const candidateId of [a, b, c]) {
      await record(candidateId, 'sponsorships', { sponsorId: setting.sponsorId, from: '2026-01-01' })
    }
    const sheetOf = (candidateId: string, graderId: string, day: string) =>
      setting.sheet({ candidateId, graderId, ...times(day) })
    const third = await putSheet(office, sheetOf(c, b, '2026-03-04'))
    const middle = await putSheet(office, sheetOf(b, a, '2026-03-03'))
    expect([third.state, middle.state]).toEqual(['held', 'held'])
    await putSheet(office, sheetOf(a, setting.graderId, '2026-03-02'))
    for (const { id } of [third, middle]) expect(await read(id)).toMatchObject({ state: 'counted', violations: [] })
  })

  it('of two who graded each other holds both, and an award of one frees both', async () => {
    const setting = await makeTestSetting(office)
    const [a, b] = [await newSoldier(setting), await newSoldier(setting)]
    for (const candidateId of [a, b]) {
      await record(candidateId, 'sponsorships', { sponsorId: setting.sponsorId, from: '2026-01-01' })
    }
    const one = await putSheet(office, setting.sheet({ candidateId: a, graderId: b, ...times('2026-03-02') }))
    const other = await putSheet(office, setting.sheet({ candidateId: b, graderId: a, ...times('2026-03-03') }))
    expect([one.state, other.state]).toEqual(['held', 'held'])
    await carryOver(office, b, setting.certification, { awardedOn: '2026-03-01' })
    for (const { id } of [one, other]) expect(await read(id)).toMatchObject({ state: 'counted' })
  })

  it.each(['before', 'after'])(
    'ends the same, whether who is last in it was put on the roster %s the others',
    async (when) => {
      const ground = await makeGround(office)
      const march = await makeStandard(office)
      const both = await makeCertification(office, { standards: [ground.standard, march] })
      const setting = await makeTestSetting(office, ground)
      const { sponsorId, graderId } = ground
      await carryOver(office, graderId, both)
      await carryOver(office, sponsorId, both)
      const sorted = (await Promise.all([1, 2].map(() => newSoldier(setting)))).sort()
      const [middle, last] = when === 'after' ? sorted : sorted.reverse()
      const first = setting.candidateId
      await record(middle!, 'sponsorships', { sponsorId: first, from: '2026-01-01' })
      await record(middle!, 'sponsorships', { sponsorId, from: '2026-01-01' })
      await record(last!, 'sponsorships', { sponsorId: first, from: '2026-01-01' })
      const sheet = (candidateId: string, day: string, more: Partial<SheetInput>) =>
        putSheet(office, setting.sheet({ candidateId, ...times(day), ...more }))
      // The NO-GO in the middle is held for its sponsor only; once it counts, the GO before it makes no award any more.
      await sheet(middle!, '2026-03-02', { sponsorId })
      await sheet(middle!, '2026-03-03', { sponsorId: first, ...NO_GO_MARKS })
      await sheet(middle!, '2026-03-04', { sponsorId, standard: march })
      const hanging = await sheet(last!, '2026-03-05', { sponsorId: first, graderId: middle!, standard: march })
      expect(hanging.violations.map(({ rule }) => rule)).toEqual(['sponsor-not-certified'])
      await carryOver(office, first, both, { awardedOn: '2026-03-01' })
      expect(await read(hanging.id)).toMatchObject({
        state: 'held',
        violations: [{ rule: 'grader-not-qualified' }],
        decisions: [],
      })
    },
  )

  it('reaches the own test that somebody graded or sponsored themselves', async () => {
    const setting = await makeTestSetting(office)
    const { candidateId } = setting
    const own = await putSheet(office, setting.sheet({ graderId: candidateId }))
    expect(own.violations.map(({ rule }) => rule)).toEqual(['grader-is-candidate', 'grader-not-qualified'])
    await putSheet(office, setting.sheet(times('2026-03-01')))
    expect((await read(own.id)).violations.map(({ rule }) => rule)).toEqual(['grader-is-candidate'])
  })
})

describe('asking what a sheet would come to', () => {
  it('stores nothing and answers as storing it does', async () => {
    const setting = await makeTestSetting(office)
    await putSheet(office, setting.sheet(NO_GO_MARKS))
    const retest = setting.sheet({ ...times('2026-03-05'), sponsorId: null })
    const asked = await office.post<ScoredSheet>('/api/sheets/score', retest, 200)
    expect(asked.violations.map(({ rule }) => rule)).toEqual(['no-sponsor', 'too-early'])
    expect(asked.result.attempts).toEqual([{ certification: setting.certification, number: 2 }])
    const { id: _, state, arrivedLate: __, ...stored } = await putSheet(office, retest)
    expect(stored).toEqual(asked)
    expect(state).toBe('held')
  })

  it('looks at what lies before it, not at what came later', async () => {
    const setting = await makeTestSetting(office)
    await putSheet(office, setting.sheet({ ...times('2026-03-05'), ...NO_GO_MARKS }))
    const asked = await office.post<ScoredSheet>('/api/sheets/score', setting.sheet(times('2026-03-02')), 200)
    expect(asked).toMatchObject({ violations: [], result: { attempts: [{ number: 1 }] } })
    const stored = await putSheet(office, setting.sheet(times('2026-03-02')))
    expect(stored).toMatchObject({ state: 'counted' } satisfies Partial<StoredSheet>)
  })
})
