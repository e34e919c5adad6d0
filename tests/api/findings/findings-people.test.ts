import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SponsorFindings } from '../../../server/contract/findings/findings.ts'
import type { GraderFindings } from '../../../server/contract/findings/graders.ts'
import type { SponsorFunnelFindings } from '../../../server/contract/findings/sponsor-funnel.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { type FindingsWorld, makeFindingsWorld } from '../../support/findings-world.ts'
import { GO_MARKS, NO_GO_MARKS } from '../../support/sheet-body.ts'

describe('sponsors and graders', () => {
  let test: TestApp
  let world: FindingsWorld

  /**
   * By hand, all with the sword. Aldous: NO-GO then GO; GO. Brightwell: NO-GO, NO-GO, GO; GO. Nobody's: an outcome-only GO.
   * Corrigan graded what Aldous sponsored, and the last; Dunmore the others. So of the unit: first attempts 3 GO of 5,
   * second ones 1 of 2, and one third attempt, GO.
   */
  beforeAll(async () => {
    test = await buildTestApp()
    world = await makeFindingsWorld(test.office)
    const [aldous, brightwell] = world.sponsors
    const [corrigan, dunmore] = world.graders
    const of = {
      aldous: { sponsorId: aldous, graderId: corrigan },
      brightwell: { sponsorId: brightwell, graderId: dunmore },
    }
    const [c1, c2, c3, c4] = [
      await world.candidate(),
      await world.candidate(),
      await world.candidate(),
      await world.candidate(),
    ]
    const c5 = await world.candidate(1)
    const moved = await world.candidate()
    await test.office.post(`/api/soldiers/${moved}/changes`, { from: '2026-01-10', unitId: world.platoons[1] }, 200)
    await world.tested(c1, '2026-01-05', { ...NO_GO_MARKS, ...of.aldous })
    await world.tested(c1, '2026-01-06', { ...GO_MARKS, ...of.aldous })
    await world.tested(c2, '2026-01-07', { ...GO_MARKS, ...of.aldous })
    await world.tested(c3, '2026-01-08', { ...NO_GO_MARKS, ...of.brightwell })
    await world.tested(c3, '2026-01-09', { ...NO_GO_MARKS, ...of.brightwell })
    await world.tested(c3, '2026-01-12', { ...GO_MARKS, ...of.brightwell })
    await world.tested(c4, '2026-01-13', { ...GO_MARKS, ...of.brightwell })
    await world.tested(c5, '2026-01-14', { majors: [], minors: [], outcomeOnly: 'GO', sponsorId: null })
  })
  afterAll(() => test.close())

  const sponsors = (query = '') =>
    test.office.get<SponsorFindings>(`/api/findings/sponsors?standard=${world.standard}${query}`)
  const graders = (query = '') =>
    test.office.get<GraderFindings>(`/api/findings/graders?standard=${world.standard}${query}`)
  const funnel = (query = '') =>
    test.office.get<SponsorFunnelFindings>(`/api/findings/sponsor-funnel?standard=${world.standard}${query}`)

  it('attempts are credited to the sponsor on the sheet, by name', async () => {
    const { items, next } = await sponsors()
    expect(next).toBeNull()
    expect(
      items.map(({ name, grade, attempts, passes, firstAttempts, firstPasses }) => [
        name.split(',')[0],
        grade,
        attempts,
        passes,
        firstAttempts,
        firstPasses,
      ]),
    ).toEqual([
      ['Aldous', 'SGT', 3, 2, 2, 1],
      ['Brightwell', 'SGT', 4, 2, 2, 1],
    ])
  })

  it('a sponsor is held against the common rate, and differs only where that is rare', async () => {
    const { items } = await sponsors()
    const [aldous, brightwell] = items
    // Target 4 of 7. P(2 or more of 3) = 208/343; P(2 or fewer of 4) = 1377/2401.
    expect(aldous!.all.funnel).toMatchObject({ side: 'above', verdict: 'within', differsAt: null })
    expect(aldous!.all.funnel!.target).toBeCloseTo(4 / 7, 12)
    expect(aldous!.all.funnel!.chance).toBeCloseTo(208 / 343, 12)
    expect(brightwell!.all.funnel!.side).toBe('below')
    expect(brightwell!.all.funnel!.chance).toBeCloseTo(1377 / 2401, 12)
    expect(aldous!.all.rate).toMatchObject({ count: 2, n: 3, few: true })
    // Two sponsors so much alike differ no more than chance makes them: each one's best estimate is the common rate.
    expect(aldous!.all.shrunk).toMatchObject({ kind: 'pooled', interval: null })
    expect(aldous!.all.shrunk.rate).toBeCloseTo(4 / 7, 12)
    expect(aldous!.first).toMatchObject({ rate: { count: 1, n: 2 }, funnel: { target: 0.5, side: 'on' } })
  })

  it('and against what the unit would have passed of the same attempts', async () => {
    const [aldous, brightwell] = (await sponsors()).items
    // Two first attempts at 3/5, a second one at 1/2: 1.7 expected; P(2 or more) = 0.6 by hand.
    expect(aldous!.against).toMatchObject({ attempts: 3, observed: 2, side: 'above', verdict: 'within', few: true })
    expect(aldous!.against!.expected).toBeCloseTo(1.7, 12)
    expect(aldous!.against!.ratio).toBeCloseTo(2 / 1.7, 12)
    expect(aldous!.against!.chance).toBeCloseTo(0.6, 12)
    expect(aldous!.notComparable).toEqual({ attempts: 0, passes: 0 })
    // The third attempt has no other to compare with.
    expect(brightwell!.against).toMatchObject({ attempts: 3, observed: 1, side: 'below' })
    expect(brightwell!.against!.chance).toBeCloseTo(0.4, 12)
    expect(brightwell!.notComparable).toEqual({ attempts: 1, passes: 1 })
  })

  it('days coached are those within the period and the unit', async () => {
    const days = async (query: string) =>
      (await sponsors(query)).items.map(({ daysCoached, candidates }) => [daysCoached, candidates])
    const all = '&from=2026-01-05&to=2026-01-14'
    // Ten days with each of six candidates, of whom one moved to the other company after five of them.
    expect(await days(all)).toEqual([
      [60, 6],
      [60, 6],
    ])
    expect(await days(`${all}&unitId=${world.companies[0]}`)).toEqual([
      [45, 5],
      [45, 5],
    ])
    // The clock stands at 15 June 2026: a period that lasts longer ends today. 15 June is day 166 of the year.
    expect((await days('&from=2026-01-01&to=2026-12-31'))[0]).toEqual([6 * 166, 6])
  })

  it('the unit stands beside them', async () => {
    const { all, first, withoutSponsor, basis } = await funnel()
    expect(basis).toMatchObject({ attempts: 8, passes: 5, recorded: 1, stopped: 0 })
    expect(withoutSponsor).toEqual({ attempts: 1, passes: 1 })
    expect(all).toMatchObject({
      rate: { count: 4, n: 7 },
      sponsors: 2,
      mostAttempts: 4,
      spread: { kind: 'no-over-dispersion' },
    })
    expect(all.lines.map(({ attempts }) => attempts)).toEqual([1, 2, 3, 4])
    expect(first).toMatchObject({ rate: { count: 2, n: 4 }, mostAttempts: 2 })
  })

  it('graders are held against the unit’s rates alike', async () => {
    const { items, unit } = await graders()
    expect(unit).toMatchObject({ count: 5, n: 8 })
    const [corrigan, dunmore] = items
    expect([corrigan!.name.split(',')[0], corrigan!.attempts, corrigan!.passes]).toEqual(['Corrigan', 4, 3])
    expect(corrigan!.against).toMatchObject({ attempts: 4, observed: 3 })
    expect(corrigan!.against!.expected).toBeCloseTo(3 * 0.6 + 0.5, 12)
    expect(dunmore).toMatchObject({ attempts: 4, passes: 2, notComparable: { attempts: 1, passes: 1 } })
    expect(dunmore!.against!.expected).toBeCloseTo(1.7, 12)
  })

  it('every filter holds', async () => {
    const brief = async (query: string) =>
      (await sponsors(query)).items.map(({ name, attempts, passes }) => `${name.split(',')[0]} ${passes}/${attempts}`)
    expect(await brief('&attempts=first')).toEqual(['Aldous 1/2', 'Brightwell 1/2'])
    expect(await brief('&attempts=retest')).toEqual(['Aldous 1/1', 'Brightwell 1/2'])
    expect(await brief('&to=2026-01-07')).toEqual(['Aldous 2/3'])
    expect(await brief('&arm=rifle')).toEqual([])
    expect(await brief(`&unitId=${world.companies[1]}`)).toEqual([])
    expect((await graders(`&unitId=${world.companies[1]}`)).items.map(({ attempts }) => attempts)).toEqual([1])
  })

  it('a list comes in pages, each judged against everybody', async () => {
    const page = await sponsors('&limit=1')
    const rest = await sponsors(`&limit=1&after=${page.next}`)
    expect([...page.items, ...rest.items]).toEqual((await sponsors()).items)
    expect(rest.next).toBeNull()
  })

  it('a single sponsor, and nobody, are not estimated', async () => {
    const alone = (await sponsors('&to=2026-01-07')).items[0]!
    expect(alone.all.shrunk).toEqual({
      kind: 'not-estimated',
      rate: null,
      interval: null,
      ownWeight: null,
      reason: 'one-group',
    })
    const passedAll = (await sponsors('&attempts=retest&to=2026-01-07')).items[0]!
    expect(passedAll.all.funnel).toBeNull()
    const none = await funnel('&arm=rifle')
    expect(none.all).toMatchObject({ rate: { n: 0, rate: null }, sponsors: 0, lines: [], spread: { kind: 'no-data' } })
    expect(await graders('&arm=rifle')).toMatchObject({ items: [], unit: { n: 0, rate: null } })
  })

  it('a sponsor sees themselves beside the unit’s figure, and no other by name', async () => {
    const account = { name: 'aldous', roles: ['sponsor' as const], soldierId: world.sponsors[0] }
    const sponsor = await test.signedIn(account)
    const own = await sponsor.get<SponsorFindings>(`/api/findings/sponsors?standard=${world.standard}`)
    expect(own.items).toEqual((await sponsors()).items.slice(0, 1))
    const text = JSON.stringify([
      own,
      await sponsor.get(`/api/findings/sponsor-funnel?standard=${world.standard}`),
      await sponsor.get(`/api/findings/graders?standard=${world.standard}`),
    ])
    for (const other of ['Brightwell', 'Corrigan', 'Dunmore', world.sponsors[1], ...world.graders])
      expect(text).not.toContain(other)
  })

  it('a leader sees the findings of their own unit, held against no other', async () => {
    await world.tested(await world.candidate(1), '2026-03-01')
    const account = { name: 'leader', roles: ['leader' as const], unitId: world.companies[0] }
    const leader = await test.signedIn(account)
    const found = await leader.get<{ basis: { attempts: number }; items: { rest: unknown }[] }>(
      '/api/findings/measures',
    )
    expect(found.basis.attempts).toBe(7)
    expect(found.items.every(({ rest }) => rest === null)).toBe(true)
    await leader.refused(404, 'GET', `/api/findings/measures?unitId=${world.companies[1]}`)
    await leader.refused(404, 'GET', `/api/findings/time-to-certify?unitId=${world.companies[1]}`)
    const soldier = await test.signedIn({ name: 'soldier', roles: ['soldier'], soldierId: world.graders[0] })
    for (const path of [
      'measures',
      'trend',
      'readings',
      'pairs',
      'quality',
      'sponsors',
      'sponsor-funnel',
      'graders',
      'agreement',
      'time-to-certify',
    ]) {
      await soldier.refused(403, 'GET', `/api/findings/${path}`)
    }
  })

  it('one who passed none of six beside one who passed all six differs', async () => {
    const apart = await makeFindingsWorld(test.office)
    for (let i = 0; i < 6; i++) {
      const [one, other] = [await apart.candidate(), await apart.candidate()]
      await apart.tested(one, '2026-02-01', { ...NO_GO_MARKS, sponsorId: apart.sponsors[0] })
      await apart.tested(other, '2026-02-01', { ...GO_MARKS, sponsorId: apart.sponsors[1] })
    }
    const { items } = await test.office.get<SponsorFindings>(`/api/findings/sponsors?standard=${apart.standard}`)
    // At a target of 1/2: 1/64 on a side. F(1) = 7/64, so the lower 95 % limit is (1 − (7/64 − 0.025)/(6/64))/6 = 1/60.
    for (const { all, against } of items) {
      expect(all.funnel).toMatchObject({ target: 0.5, verdict: 'differs', differsAt: 0.95 })
      expect(all.funnel!.chance).toBeCloseTo(1 / 64, 12)
      expect(all.funnel!.limits95.low).toBeCloseTo(1 / 60, 12)
      expect(all.shrunk).toMatchObject({ kind: 'not-estimated', reason: 'all-or-nothing' })
      expect(all.rate.few).toBe(false)
      expect(against).toMatchObject({ expected: 3, verdict: 'differs', differsAt: 0.95 })
    }
    expect(items.map(({ all }) => all.funnel!.side)).toEqual(['below', 'above'])
  })
})
