import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { AgreementFindings } from '../../../server/contract/findings/agreement.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeSoldier } from '../../support/factories.ts'
import { type FindingsWorld, makeFindingsWorld } from '../../support/findings-world.ts'
import { marks, type SheetInput, STOPPED_MARKS } from '../../support/sheet-body.ts'

describe('agreement of graders', () => {
  let test: TestApp
  let world: FindingsWorld
  beforeAll(async () => {
    test = await buildTestApp()
    world = await makeFindingsWorld(test.office)
  })
  afterAll(() => test.close())

  const ask = (query = '') =>
    test.office.get<AgreementFindings>(`/api/findings/agreement?standard=${world.standard}${query}`)
  const of = ({ items }: AgreementFindings, measure: string | null) => items.filter((item) => item.measure === measure)

  it('where nobody graded twice, there is none', async () => {
    const leftOut = { firstNotCounted: 0, notCounted: 0, void: 0, recorded: 0, notTheSameTest: 0 }
    expect(await ask()).toEqual({ items: [], basis: { level: 0.95, attempts: 0, leftOut } })
  })

  describe('of ten attempts graded twice', () => {
    const twice = async (candidate: string, day: string, first: Partial<SheetInput>, second: Partial<SheetInput>) => {
      const id = await world.tested(candidate, day, first)
      await world.tested(candidate, day, { graderId: world.graders[1], secondOf: id, ...second }, 11)
      return id
    }

    /**
     * By hand. On draw: both GO in 4, first GO only 1, second GO only 2, both NO-GO in 3. On halt all GO. One attempt has a
     * third grader, who says GO on draw as the second does. The outcome is GO throughout.
     */
    beforeAll(async () => {
      const candidate = await world.candidate()
      const day = (i: number) => `2026-04-${String(i + 1).padStart(2, '0')}`
      const draws = ['GG', 'GG', 'GG', 'GG', 'GN', 'NG', 'NG', 'NN', 'NN', 'NN'] as const
      let last = ''
      for (const [i, pair] of draws.entries()) {
        const [first, second] = [...pair].map((mark) => marks(...(mark === 'N' ? (['draw'] as const) : [])))
        last = await twice(candidate, day(i), first!, second!)
        if (i === 6) {
          const third = await makeSoldier(test.office, world.battalion)
          await test.office.post(`/api/soldiers/${third}/appointments`, {
            standard: world.standard,
            from: '2020-01-01',
          })
          await world.tested(candidate, day(i), { ...marks(), graderId: third, secondOf: last }, 12)
        }
      }
      await world.tested(candidate, '2026-05-01', {
        ...marks(),
        secondOf: last,
        void: { kind: 'weather' },
        graderId: world.graders[1],
      })
      await world.tested(candidate, '2026-05-02', { ...marks(), secondOf: last })
      await world.tested(candidate, '2026-05-03', {
        ...marks(),
        secondOf: '00000000-0000-4000-8000-000000000001',
        graderId: world.graders[1],
      })
      await world.tested(candidate, '2026-05-04', {
        majors: [],
        minors: [],
        outcomeOnly: 'GO',
        secondOf: last,
        graderId: world.graders[1],
      })
    })

    it('Cohen’s kappa is that of the hand-made table', async () => {
      const found = await ask()
      expect(found.basis).toEqual({
        level: 0.95,
        attempts: 10,
        leftOut: { firstNotCounted: 1, notCounted: 0, void: 1, recorded: 1, notTheSameTest: 1 },
      })
      const [draw] = of(found, 'draw')
      expect(draw).toMatchObject({ attempts: 10, major: false, versions: [1], current: true })
      expect(draw!.table).toEqual({ bothGo: 4, firstGoOnly: 1, secondGoOnly: 2, bothNoGo: 3 })
      // Observed 0.7; by chance 0.5 × 0.6 + 0.5 × 0.4 = 0.5; so (0.7 − 0.5)/(1 − 0.5) = 0.4, which is fair.
      expect(draw!.cohen).toMatchObject({ band: 'fair', reason: null })
      expect(draw!.cohen.value).toBeCloseTo(0.4, 12)
      expect(draw!.cohen.observed).toBeCloseTo(0.7, 12)
      expect(draw!.cohen.byChance).toBeCloseTo(0.5, 12)
      expect(draw!.cohen.interval!.low).toBeLessThan(0.4)
    })

    it('Fleiss’ kappa and AC1 take the third grader in', async () => {
      const [draw] = of(await ask(), 'draw')
      // The attempt with three graders has one agreeing pair of three: pₐ = (7 + 1/3)/10. Mean share of GO: 4 + ½ + ½ + ⅔,
      // of 10: 17/30. Fleiss: chance (17² + 13²)/900; AC1: 2 × 17 × 13/900.
      const observed = (7 + 1 / 3) / 10
      expect(draw!.fleiss.observed).toBeCloseTo(observed, 12)
      const byChance = (17 ** 2 + 13 ** 2) / 900
      expect(draw!.fleiss.value).toBeCloseTo((observed - byChance) / (1 - byChance), 12)
      const ac1Chance = (2 * 17 * 13) / 900
      expect(draw!.ac1.value).toBeCloseTo((observed - ac1Chance) / (1 - ac1Chance), 12)
    })

    it('where both only ever said GO, kappa is not defined rather than 1, and AC1 has no interval', async () => {
      const found = await ask()
      for (const one of [...of(found, 'halt'), ...of(found, null), ...of(found, 'composure')]) {
        expect(one.table).toEqual({ bothGo: 10, firstGoOnly: 0, secondGoOnly: 0, bothNoGo: 0 })
        expect(one.cohen).toMatchObject({ value: null, interval: null, reason: 'one-category' })
        expect(one.fleiss).toMatchObject({ value: null, reason: 'one-category' })
        expect(one.ac1).toMatchObject({ value: 1, interval: null, reason: null })
      }
      expect(of(found, 'composure')[0]!.major).toBe(true)
    })

    it('follows the filters of the first grader’s sheet', async () => {
      const attempts = async (query: string) => (await ask(query)).basis.attempts
      expect(await attempts('&from=2026-04-03&to=2026-04-05')).toBe(3)
      expect(await attempts('&attempts=retest')).toBe(0)
      expect(await attempts(`&unitId=${world.companies[1]}`)).toBe(0)
      expect(await attempts(`&unitId=${world.companies[0]}`)).toBe(10)
      expect((await ask(`&unitId=${world.companies[1]}`)).basis.leftOut.firstNotCounted).toBe(0)
    })
  })

  it('what one of both never reached is compared on nothing', async () => {
    const other = await makeFindingsWorld(test.office)
    const candidate = await other.candidate()
    const id = await other.tested(candidate, '2026-04-01', STOPPED_MARKS)
    await other.tested(
      candidate,
      '2026-04-01',
      { ...marks('draw', 'halt'), secondOf: id, graderId: other.graders[1] },
      11,
    )
    const { items } = await test.office.get<AgreementFindings>(`/api/findings/agreement?standard=${other.standard}`)
    // Stopped: composure NO-GO, draw GO, nothing else decided.
    expect(
      items.map(({ measure, attempts, table }) => [
        measure,
        attempts,
        table.bothNoGo,
        table.firstGoOnly,
        table.secondGoOnly,
      ]),
    ).toEqual([
      [null, 1, 1, 0, 0],
      ['composure', 1, 0, 0, 1],
      ['draw', 1, 0, 1, 0],
    ])
    expect(items[0]!.cohen.reason).toBe('one-category')
    expect(items[1]!.cohen.value).toBeCloseTo(0, 12)
  })
})
