import pg from 'pg'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { CandidateCoaching, Coaching } from '../../../server/contract/coaching/coaching.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import {
  carryOver,
  makeGround,
  makeSoldier,
  makeTestSetting,
  putSheet,
  type TestSetting,
} from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
let sponsor: Client
beforeAll(async () => {
  test = await buildTestApp({ mostCandidates: 2 })
  setting = await makeTestSetting(test.office)
  sponsor = await test.signedIn({ name: 'sponsor', roles: ['sponsor'], soldierId: setting.sponsorId })
})
afterAll(() => test.close())

const desk = () => sponsor.get<Coaching>('/api/coaching')

describe('a sponsor’s candidates', () => {
  it('come with what is ahead and nothing to warn of, before any test', async () => {
    const { items, candidates, tooManySince, own } = await desk()
    expect([items.length, candidates, tooManySince]).toEqual([1, 1, null])
    expect(own.map(({ status }) => status)).toEqual(['certified'])
    expect(items[0]).toMatchObject({
      candidateId: setting.candidateId,
      since: '2026-01-01',
      until: null,
      ahead: [{ standard: setting.standard, retest: null, booking: null }],
      warnings: [],
    })
    expect(items[0]!.drill).toMatchObject({ standard: setting.standard, tests: 0 })
    expect(items[0]!.drill!.items.every(({ reason }) => reason === 'not-tested')).toBe(true)
  })

  it('come with the measure to drill first and what keeps failing, from tests alone', async () => {
    const codes = (await desk()).items[0]!.drill!.items.filter(({ major }) => !major).map(({ measure }) => measure)
    const [one, two, three] = codes as [string, string, string]
    const marks = (noGo: string[]) => ({
      minors: codes.map((code) => ({
        code,
        trials: (noGo.includes(code) ? ['incorrect', 'incorrect'] : ['correct', 'correct']) as (
          | 'correct'
          | 'incorrect'
        )[],
      })),
    })
    await putSheet(test.office, setting.sheet({ ...times('2026-05-01'), ...marks([one, two]) }))
    await putSheet(test.office, setting.sheet({ ...times('2026-05-20'), ...marks([two, three]) }))
    const practice = { purpose: 'practice' as const, graderId: setting.sponsorId, ...times('2026-06-01') }
    await putSheet(test.office, setting.sheet({ ...practice, ...marks([one, two, three]) }))
    const { items, version, tests } = (await desk()).items[0]!.drill!
    expect([version, tests]).toEqual([1, 2])
    expect(items.slice(0, 3).map(({ measure, reason, tested, noGo }) => [measure, reason, tested, noGo])).toEqual([
      [two, 'never-go', 2, 2],
      [three, 'no-go-last', 2, 1],
      [one, 'go-since', 2, 1],
    ])
    expect(items[2]!.improved).toEqual({ noGoOn: '2026-05-01', goOn: '2026-05-20' })
    // The unit's first-timers are this candidate alone: the second attempt is none of them.
    expect(items[0]!.unit).toMatchObject({ count: 1, n: 1, few: true })
    expect(items[1]!.unit).toMatchObject({ count: 0, n: 1 })
  })

  it('come with the warnings of each, with a day', async () => {
    // NO-GO on 20 May: earliest 27 May, due 19 June; today is 15 June.
    expect((await desk()).items[0]!.warnings).toEqual([
      expect.objectContaining({ kind: 'nothing-booked', on: '2026-06-19', test: '2026-06-15', booked: false }),
    ])
    const { id } = await test.office.post('/api/test-days', { on: '2027-01-15', unitId: setting.unitId })
    const { candidateId, standard } = setting
    await test.office.post(`/api/test-days/${id}/bookings`, { candidateId, standard })
    const [item] = (await desk()).items
    expect(item!.ahead[0]!.booking).toMatchObject({ on: '2027-01-15' })
    // The sponsor's carried-over award is valid through 31 December 2026.
    expect(item!.warnings).toEqual([
      expect.objectContaining({ kind: 'booked-after-due', on: '2026-06-19', test: '2027-01-15', sponsorId: null }),
      expect.objectContaining({
        kind: 'sponsor-not-certified',
        on: '2026-12-31',
        test: '2027-01-15',
        sponsorId: setting.sponsorId,
      }),
    ])
    await test.office.post('/api/suspensions', {
      soldierId: setting.sponsorId,
      certification: setting.certification,
      from: '2026-06-01',
      reason: 'Equipment',
    })
    expect((await desk()).items[0]!.warnings[0]).toMatchObject({ kind: 'sponsor-not-certified', on: '2026-06-15' })
  })

  it('are too many from the day on which one more than the setting came', async () => {
    for (const from of ['2026-02-01', '2026-04-01']) {
      const one = await makeSoldier(test.office, setting.unitId)
      await test.office.post(`/api/soldiers/${one}/sponsorships`, { sponsorId: setting.sponsorId, from })
    }
    expect(await desk()).toMatchObject({ candidates: 3, mostCandidates: 2, tooManySince: '2026-04-01' })
    const first = await sponsor.get<Coaching>('/api/coaching?limit=2')
    const rest = await sponsor.get<Coaching>(`/api/coaching?limit=2&after=${first.next}`)
    expect([first.items.length, rest.items.length, rest.next]).toEqual([2, 1, null])
  })

  it('are nobody where the account is no soldier’s, and nobody else’s business', async () => {
    const without = await test.signedIn({ name: 'without', roles: ['sponsor'] })
    expect(await without.get('/api/coaching')).toMatchObject({ items: [], candidates: 0 })
    await test.office.refused(403, 'GET', '/api/coaching')
    await sponsor.refused(404, 'GET', `/api/soldiers/${setting.graderId}/coaching`)
  })
})

describe('one candidate', () => {
  const of = (client: Client, id: string, query = '') =>
    client.get<CandidateCoaching>(`/api/soldiers/${id}/coaching${query}`)

  it('is told what is ahead and what to drill, and nothing of how the sponsor stands', async () => {
    const self = await test.signedIn({ name: 'self', roles: ['soldier'], soldierId: setting.candidateId })
    const { warnings, drill } = await of(self, setting.candidateId)
    expect(warnings.map(({ kind }) => kind)).toEqual(['booked-after-due'])
    expect(drill!.items[0]!.reason).toBe('never-go')
    const seen = (await of(test.office, setting.candidateId)).warnings.map(({ sponsorId }) => sponsorId)
    expect(new Set(seen)).toEqual(new Set([null, setting.sponsorId]))
  })

  it('is shown under a version of the standard that defines a measure otherwise', async () => {
    const ground = await makeGround(test.office)
    const own = await makeTestSetting(test.office, ground)
    await putSheet(test.office, own.sheet())
    const { items } = await test.office.get<{ items: { code: string; id: string }[] }>('/api/standards?limit=500')
    const {
      id: _,
      publishedAt: _2,
      ...first
    } = items.find(({ code }) => code === own.standard)! as never as {
      id: string
      publishedAt: string
      minors: { faults: object[] }[]
    }
    const [changed, ...same] = first.minors
    const minors = [
      { ...changed, faults: [...changed!.faults, { code: 'other-fault', title: 'Another fault' }] },
      ...same,
    ]
    const body = { ...first, minors, version: 2, effectiveFrom: '2026-04-01' }
    const { id } = await test.office.post('/api/standards', body)
    await test.office.post(`/api/standards/${id}/publish`, undefined, 200)
    const { drill } = await of(test.office, own.candidateId, `?standard=${own.standard}`)
    expect(drill!.version).toBe(2)
    expect(drill!.items.filter(({ otherVersions }) => otherVersions.includes(1))).toHaveLength(1)
  })

  it('is refused for a standard that is not there', async () => {
    await test.office.refused(422, 'GET', `/api/soldiers/${setting.candidateId}/coaching?standard=no-such`)
  })

  it('whose GO ages out before the other test is booked is told so', async () => {
    const [a, b] = [await makeGround(test.office), await makeGround(test.office)]
    const candidate = await makeTestSetting(test.office, a)
    const both = await test.office.post('/api/certifications', {
      code: 'both',
      title: 'Both',
      standards: [a.standard, b.standard],
      effectiveFrom: '2020-01-01',
    })
    expect(both.id).toBeTruthy()
    await carryOver(test.office, candidate.sponsorId, 'both')
    await putSheet(test.office, candidate.sheet(times('2026-04-10')))
    const { warnings } = await of(test.office, candidate.candidateId)
    expect(warnings.filter(({ kind }) => kind === 'go-ages-out')).toEqual([
      expect.objectContaining({ certification: 'both', standard: a.standard, on: '2026-07-09', test: null }),
    ])
  })
})

describe('a desk', () => {
  it('asks the same number of questions for many candidates, sponsors and standards as for one', async () => {
    const [a, b] = [await makeTestSetting(test.office), await makeTestSetting(test.office)]
    const asOther = await test.signedIn({ name: 'other-sponsor', roles: ['sponsor'], soldierId: a.sponsorId })
    const asked = vi.spyOn(pg.Client.prototype, 'query')
    const questions = async () => {
      asked.mockClear()
      const { items } = await asOther.get<Coaching>('/api/coaching?limit=500')
      return { candidates: items.length, asked: asked.mock.calls.length }
    }
    try {
      await questions()
      const one = await questions()
      expect(one.candidates).toBe(1)
      for (const [arms, sponsorId] of [
        [['sword'], b.sponsorId],
        [['saber'], b.graderId],
        [['sword', 'saber'], setting.sponsorId],
      ] as const) {
        const id = await makeSoldier(test.office, a.unitId, { arms: [...arms] })
        for (const each of [a.sponsorId, sponsorId]) {
          await test.office.post(`/api/soldiers/${id}/sponsorships`, { sponsorId: each, from: '2026-02-01' })
        }
      }
      await test.office.post(`/api/soldiers/${b.candidateId}/sponsorships`, {
        sponsorId: a.sponsorId,
        from: '2026-02-01',
      })
      const many = await questions()
      expect(many.candidates).toBe(5)
      expect(many.asked).toBe(one.asked)
    } finally {
      asked.mockRestore()
    }
  })
})
