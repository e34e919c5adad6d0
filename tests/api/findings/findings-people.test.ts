import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { refreshFits } from '../../../server/ability/services/refresh-fits.ts'
import { createContext } from '../../../server/context/create-context.ts'
import type { SponsorFindings } from '../../../server/contract/findings/findings.ts'
import type { GraderFindings } from '../../../server/contract/findings/graders.ts'
import type { SponsorFunnelFindings } from '../../../server/contract/findings/sponsor-funnel.ts'
import type { SponsorMeasures } from '../../../server/contract/findings/sponsor-measures.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { type FindingsWorld, makeFindingsWorld } from '../../support/findings-world.ts'
import { GO_MARKS, marks, NO_GO_MARKS } from '../../support/sheet-body.ts'

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

  it('a sponsor has one verdict, and an estimate that is never without its interval', async () => {
    const { items } = await sponsors()
    expect(items.map(({ differs, adjustedP }) => [differs, adjustedP])).toEqual([
      ['few', null],
      ['few', null],
    ])
    for (const { expected, attempts, estimate } of items) {
      expect(expected).toBeGreaterThan(0)
      expect(expected).toBeLessThan(attempts)
      expect(estimate.low).toBeLessThan(4 / 7)
      expect(estimate.high).toBeGreaterThan(4 / 7)
    }
    expect(items[0]!.rate).toMatchObject({ count: 2, n: 3, few: true })
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
    const { withoutSponsor, basis, ...unit } = await funnel()
    expect(basis).toMatchObject({ attempts: 8, passes: 5, recorded: 1, stopped: 0 })
    expect(withoutSponsor).toEqual({ attempts: 1, passes: 1 })
    expect(unit).toMatchObject({ rate: { count: 4, n: 7 }, sponsors: 2, asked: 0, mostAttempts: 4, lines: [] })
  })

  it('graders are told apart only once the model has looked at their marks', async () => {
    const { items, unit, usualCorrect } = await graders()
    expect(unit).toMatchObject({ count: 5, n: 8 })
    expect(usualCorrect).toBeNull()
    expect(items.map(({ name, passes, attempts }) => [name.split(',')[0], passes, attempts])).toEqual([
      ['Corrigan', 3, 4],
      ['Dunmore', 2, 4],
    ])
    for (const one of items) {
      expect(one).toMatchObject({ severity: null, correct: null, adjustedP: null, differs: 'few', twice: null })
    }
  })

  it('a severe grader is found, and who was stricter on the same attempt', async () => {
    const strict = await makeFindingsWorld(test.office)
    const [harsh, mild] = strict.graders
    for (let i = 0; i < 44; i++) {
      const candidate = await strict.candidate()
      const marked = (graderId: string) => (graderId === harsh ? marks('halt', 'turn') : marks())
      const first = i % 2 === 0 ? harsh : mild
      const second = i % 2 === 0 ? mild : harsh
      const id = await strict.tested(candidate, '2026-02-01', { ...marked(first), graderId: first })
      if (i < 12) await strict.tested(candidate, '2026-02-01', { ...marked(second), graderId: second, secondOf: id })
    }
    await refreshFits(createContext({ db: test.db, clock: () => test.clock.now, timeZone: 'UTC' }))
    const { items, usualCorrect } = await test.office.get<GraderFindings>(
      `/api/findings/graders?standard=${strict.standard}`,
    )
    const [corrigan, dunmore] = items
    expect(usualCorrect).toBeGreaterThan(0.5)
    expect(corrigan!.severity!.value).toBeGreaterThan(0)
    expect(corrigan).toMatchObject({
      differs: 'above',
      twice: { attempts: 12, stricter: 12, lenient: 0, differs: 'stricter' },
    })
    expect(corrigan!.twice!.p).toBeCloseTo(2 / 2 ** 12, 12)
    expect(corrigan!.correct!.rate).toBeLessThan(usualCorrect!)
    expect(corrigan!.correct!.low).toBeLessThan(corrigan!.correct!.high)
    expect(dunmore).toMatchObject({
      differs: 'below',
      twice: { attempts: 12, stricter: 0, lenient: 12, differs: 'lenient' },
    })
    expect(dunmore!.severity!.value).toBeLessThan(0)
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

  it('a single sponsor has nobody to differ from, and nobody is no sponsor', async () => {
    const alone = (await sponsors('&to=2026-01-07')).items
    expect(alone).toMatchObject([{ attempts: 3, differs: 'few' }])
    expect((await sponsors('&attempts=retest&to=2026-01-07')).items).toMatchObject([{ attempts: 1, passes: 1 }])
    const none = await funnel('&arm=rifle')
    expect(none).toMatchObject({ rate: { n: 0, rate: null }, sponsors: 0, asked: 0, mostAttempts: 0, lines: [] })
    expect(await graders('&arm=rifle')).toMatchObject({ items: [], unit: { n: 0, rate: null } })
  })

  it('what all candidates of one sponsor fail is for the office and the sponsor alone', async () => {
    const [aldous, brightwell] = world.sponsors
    const path = (id: string) => `/api/findings/sponsor-measures?standard=${world.standard}&sponsorId=${id}`
    const { items, basis } = await test.office.get<SponsorMeasures>(path(aldous))
    expect(basis.attempts).toBe(8)
    const of = (measure: string) => items.find((one) => one.measure === measure)!
    // NO-GO marks fail draw and halt, GO marks turn.
    expect(of('draw')).toMatchObject({ own: { count: 1, n: 3 }, others: { count: 2, n: 4 }, differs: 'few' })
    expect(of('turn')).toMatchObject({ own: { count: 2, n: 3 }, others: { count: 2, n: 4 } })
    expect(of('composure')).toMatchObject({ major: true, own: { count: 0, n: 3 } })
    const theirs = await test.office.get<SponsorMeasures>(path(brightwell))
    const account = { name: 'brightwell', roles: ['sponsor' as const], soldierId: brightwell }
    const sponsor = await test.signedIn(account)
    expect(await sponsor.get(path(brightwell))).toEqual(theirs)
    await sponsor.refused(404, 'GET', path(aldous))
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
      `sponsor-measures?sponsorId=${world.sponsors[0]}`,
      'graders',
      'agreement',
      'time-to-certify',
    ]) {
      await soldier.refused(403, 'GET', `/api/findings/${path}`)
    }
  })

  it('a candidate’s tests before the sponsor say what was to be expected', async () => {
    const other = await makeFindingsWorld(test.office)
    const [aldous, brightwell] = other.sponsors
    for (let i = 0; i < 4; i++) {
      const [weak, strong] = [await other.candidate(), await other.candidate()]
      await other.tested(weak, '2026-02-01', { ...NO_GO_MARKS, sponsorId: aldous })
      await other.tested(weak, '2026-02-02', { ...NO_GO_MARKS, sponsorId: aldous })
      await other.tested(weak, '2026-02-03', { ...NO_GO_MARKS, sponsorId: brightwell })
      await other.tested(strong, '2026-02-01', { ...GO_MARKS, sponsorId: aldous })
      await other.tested(strong, '2026-02-20', { ...GO_MARKS, sponsorId: aldous })
    }
    const { items } = await test.office.get<SponsorFindings>(`/api/findings/sponsors?standard=${other.standard}`)
    // Brightwell's four had failed twice each: little was to be expected of them, so little is to be wondered at.
    const { expected, p } = items[1]!
    expect(items[1]).toMatchObject({ attempts: 4, passes: 0 })
    expect(expected / 4).toBeLessThan(0.35)
    expect(p).toBeGreaterThan(0.2)
  })

  it('one who passed none of six beside one who passed all six differs', async () => {
    const apart = await makeFindingsWorld(test.office)
    for (let i = 0; i < 6; i++) {
      const [one, other] = [await apart.candidate(), await apart.candidate()]
      await apart.tested(one, '2026-02-01', { ...NO_GO_MARKS, sponsorId: apart.sponsors[0] })
      await apart.tested(other, '2026-02-01', { ...GO_MARKS, sponsorId: apart.sponsors[1] })
    }
    const { items } = await test.office.get<SponsorFindings>(`/api/findings/sponsors?standard=${apart.standard}`)
    // One attempt a candidate, so ability is no cluster: (1/2)⁶ on a side, twice that for both.
    for (const { expected, p, adjustedP } of items) {
      expect(expected).toBeCloseTo(3, 3)
      expect(p).toBeCloseTo(1 / 32, 3)
      expect(adjustedP).toBeCloseTo(1 / 32, 3)
    }
    expect(items.map(({ differs }) => differs)).toEqual(['below', 'above'])
    const { lines, asked } = await test.office.get<SponsorFunnelFindings>(
      `/api/findings/sponsor-funnel?standard=${apart.standard}`,
    )
    expect([asked, lines.length]).toEqual([2, 6])
    // Variance of a pass 1/4: 1/2 ± 1.96 √(1/24); with both called different the outer limits are the same.
    expect(lines[5]!.usual.high).toBeCloseTo(0.5 + 1.959963984540054 * Math.sqrt(1 / 24), 3)
    expect(lines[5]!.called).toEqual(lines[5]!.usual)
  })
})
