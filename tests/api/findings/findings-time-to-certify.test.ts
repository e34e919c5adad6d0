import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { TimeToCertify } from '../../../server/contract/findings/time-to-certify.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'
import { readCsv } from '../../reference/support/read-csv.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { carryOver, makeSoldier } from '../../support/factories.ts'
import { type FindingsWorld, makeFindingsWorld } from '../../support/findings-world.ts'
import { NO_GO_MARKS } from '../../support/sheet-body.ts'

const FIRST_DAY = '2026-01-01'

describe('time to certify', () => {
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp()
  })
  afterAll(() => test.close())
  const ask = async (world: FindingsWorld, query = '') => {
    const answer = await test.office.get<TimeToCertify>(
      `/api/findings/time-to-certify?certification=${world.certification}&start=first-attempt${query}`,
    )
    return { ...answer, of: answer.items[0]! }
  }

  // E. J. Freireich et al. (1963), Blood 21:699–716, as printed in D. R. Cox & D. Oakes (1984), Analysis of Survival Data,
  // p. 8: weeks of remission, here days from a first NO-GO to the certification, 6-MP in company A and placebo in company
  // B. Whoever was censored then leaves training here, or the strength, which is the other way the waiting can end; with nobody
  // waiting the shares certified and left are plain counts. The log-rank test, of those still in training, is the published one.
  describe('of the 42 times of Freireich et al.', () => {
    let world: FindingsWorld
    beforeAll(async () => {
      world = await makeFindingsWorld(test.office)
      const rows = readCsv('freireich_6mp.csv')
      for (const [i, { time, status, group }] of rows.entries()) {
        const candidate = await world.candidate(group === '6-MP' ? 0 : 1)
        const day = addDays(FIRST_DAY, Number(time))
        await world.tested(candidate, FIRST_DAY, NO_GO_MARKS)
        if (status === '1') await world.tested(candidate, day)
        else if (i % 2 === 0) {
          await test.office.post(`/api/soldiers/${candidate}/withdrawals`, {
            certification: world.certification,
            on: day,
            reason: 'Moved.',
          })
        } else
          await test.office.post(
            `/api/soldiers/${candidate}/changes`,
            { from: addDays(day, 1), left: 'transferred' },
            200,
          )
      }
    })

    it('the companies’ curves are shares of all who began, leaving counted as an end', async () => {
      const { of, transformation, start, asOf } = await ask(world)
      expect([transformation, start, asOf]).toEqual(['log-log', 'first-attempt', '2026-06-15'])
      const [treated, placebo] = of.companies
      expect(treated).toMatchObject({
        name: 'Company A',
        soldiers: 21,
        certified: 9,
        waiting: 0,
        left: 12,
        median: null,
      })
      expect(treated!.medianInterval.high).toBeNull()
      expect(placebo).toMatchObject({ name: 'Company B', soldiers: 21, certified: 21, left: 0, median: 8 })
      const at = (day: number) => treated!.points.find((point) => point.day === day)!
      expect(at(6)).toMatchObject({ atRisk: 21, certified: 3 })
      expect(at(6).uncertified).toBeCloseTo(18 / 21, 12)
      expect(at(23).uncertified).toBeCloseTo(12 / 21, 12)
      // One of those censored in the trial at 6 weeks left that day.
      expect(at(6)).toMatchObject({ left: 1, censored: 0 })
      expect(at(6).leftShare).toBeCloseTo(1 / 21, 12)
      expect(treated!.points.at(-1)!.leftShare).toBeCloseTo(12 / 21, 12)
      expect(placebo!.tests).toEqual({
        median: 2,
        counts: [{ tests: 2, certified: 21, left: 0, waiting: 0, certifiedShare: 1 }],
      })
      expect(treated!.tests.counts).toMatchObject([
        { tests: 1, certified: 0, left: 12 },
        { tests: 2, certified: 9, left: 0 },
      ])
      expect(placebo!.points.at(-1)).toMatchObject({ day: 23, uncertified: 0, interval: null })
      expect(of.all).toMatchObject({ soldiers: 42, certified: 30, left: 12 })
      expect(treated!.points.reduce((sum, point) => sum + point.certified + point.left, 0)).toBe(21)
    })

    it('the log-rank test tells them apart', async () => {
      const { of } = await ask(world)
      expect(of.comparison).toMatchObject({ verdict: 'differ', degreesOfFreedom: 1 })
      expect(of.comparison.chiSquare).toBeCloseTo(16.793, 3)
      const [treated, placebo] = of.comparison.expected
      expect(treated).toMatchObject({ unitId: world.companies[0], observed: 9, compared: true })
      expect(treated!.expected).toBeCloseTo(19.25, 2)
      expect(placebo!.expected).toBeCloseTo(10.75, 2)
    })

    it('one company alone is compared with nobody', async () => {
      const { of } = await ask(world, `&unitId=${world.companies[0]}`)
      expect(of.all.soldiers).toBe(21)
      expect(of.comparison).toMatchObject({ verdict: 'not-compared', reason: 'fewer-than-two-groups', p: null })
    })

    it('the period is that of first days', async () => {
      expect((await ask(world, '&from=2026-01-02')).of.all).toMatchObject({ soldiers: 0, median: null, points: [] })
      expect((await ask(world, '&to=2026-01-01')).of.all.soldiers).toBe(42)
    })
  })

  it('of nobody is nothing, and every certification has its item', async () => {
    const world = await makeFindingsWorld(test.office)
    const { of } = await ask(world)
    expect(of).toEqual({
      certification: world.certification,
      all: {
        soldiers: 0,
        certified: 0,
        waiting: 0,
        left: 0,
        median: null,
        medianInterval: { low: null, high: null },
        points: [],
        tests: { median: null, counts: [] },
      },
      companies: [],
      comparison: {
        verdict: 'not-compared',
        reason: 'no-events',
        chiSquare: null,
        degreesOfFreedom: null,
        p: null,
        expected: [],
      },
      leftOut: { certifiedBefore: 0 },
    })
    const byStandard = await test.office.get<TimeToCertify>(`/api/findings/time-to-certify?standard=${world.standard}`)
    expect(byStandard.items.map(({ certification }) => certification)).toEqual([world.certification])
    const rifle = await test.office.get<TimeToCertify>(
      `/api/findings/time-to-certify?standard=${world.standard}&arm=rifle`,
    )
    expect(rifle.items).toEqual([])
    await test.office.refused(422, 'GET', '/api/findings/time-to-certify?certification=none')
  })

  it('who waits is seen until today; who held it before is no first certification; leaving ends it', async () => {
    const world = await makeFindingsWorld(test.office)
    const waiting = await world.candidate()
    await world.tested(waiting, '2026-06-05', NO_GO_MARKS)
    const renewal = await world.candidate()
    await carryOver(test.office, renewal, world.certification, { awardedOn: '2025-01-01', validThrough: '2025-12-31' })
    await world.tested(renewal, '2026-02-01')
    const onTheFirstTry = await world.candidate()
    await world.tested(onTheFirstTry, '2026-03-01')
    const onPaper = await world.candidate()
    await world.tested(onPaper, '2026-03-01', NO_GO_MARKS)
    await carryOver(test.office, onPaper, world.certification, { awardedOn: '2026-03-11', validThrough: '2027-03-10' })
    const returned = await world.candidate()
    await world.tested(returned, '2026-03-01', NO_GO_MARKS)
    await test.office.post(`/api/soldiers/${returned}/changes`, { from: '2026-03-05', left: 'other' }, 200)
    await test.office.post(`/api/soldiers/${returned}/changes`, { from: '2026-04-01', unitId: world.platoons[0] }, 200)
    await world.tested(returned, '2026-04-02')
    const moved = await world.candidate()
    await world.tested(moved, '2026-03-01', NO_GO_MARKS)
    await test.office.post(`/api/soldiers/${moved}/changes`, { from: '2026-03-03', unitId: world.platoons[1] }, 200)
    await world.tested(moved, '2026-03-21')

    const { of } = await ask(world)
    expect(of.leftOut).toEqual({ certifiedBefore: 1 })
    expect(of.all).toMatchObject({ soldiers: 5, certified: 3, waiting: 1, left: 1 })
    // Day 0 at once; day 3 the one who left on the 5th was last seen; day 10 on paper, and the one who waits; day 20 moved.
    expect(
      of.all.points.map(({ day, atRisk, certified, left, censored }) => [day, atRisk, certified, left, censored]),
    ).toEqual([
      [0, 5, 1, 0, 0],
      [3, 4, 0, 1, 0],
      [10, 3, 1, 0, 1],
      [20, 1, 1, 0, 0],
    ])
    // One at once; of the four others one leaves: 1/5, then 1/5 + 3/5 · 1/3, and all that remains.
    expect(of.all.points.map(({ uncertified }) => Number(uncertified.toFixed(9)))).toEqual([0.8, 0.8, 0.6, 0.2])
    // On paper with one test, the others with two; he who came back had left before.
    expect(of.all.tests.counts).toMatchObject([
      { tests: 1, certified: 2, left: 1, waiting: 1 },
      { tests: 2, certified: 1, left: 0, waiting: 0 },
    ])
    expect(of.companies.map(({ name, soldiers }) => [name, soldiers])).toEqual([['Company A', 5]])
  })

  it('from the first day with a sponsor counts those who were required to hold it', async () => {
    const world = await makeFindingsWorld(test.office)
    const coached = async (from: string, arms: string[]) => {
      const id = await makeSoldier(test.office, world.platoons[0], { arms })
      await test.office.post(`/api/soldiers/${id}/sponsorships`, { sponsorId: world.sponsors[0], from })
      return id
    }
    const quick = await coached('2026-02-01', ['sword'])
    await world.tested(quick, '2026-02-15')
    await coached('2026-06-01', ['sword'])
    await coached('2026-02-01', ['rifle'])
    const fromSponsor = async (query: string) => {
      const answer = await test.office.get<TimeToCertify>(
        `/api/findings/time-to-certify?certification=${world.certification}${query}`,
      )
      return { ...answer, of: answer.items[0]! }
    }
    const { of, start } = await fromSponsor(`&unitId=${world.battalion}`)
    expect(start).toBe('first-sponsor')
    expect(of.all).toMatchObject({ soldiers: 2, certified: 1, waiting: 1, left: 0 })
    expect(of.all.points.map(({ day }) => day)).toEqual([14])
    expect((await ask(world)).of.all).toMatchObject({ soldiers: 1, certified: 1 })
  })
})
