import { describe, expect, test } from 'vitest'
import { createRandom, type Random } from '../../seed/generate/random.ts'
import type { GainKind } from '../../server/domain/ability/attempt-kind.ts'
import { type CoachedGroup, coachedPasses } from '../../server/domain/statistics/passes/coached-passes.ts'
import { coachingFunnel } from '../../server/domain/statistics/passes/coaching-funnel.ts'
import {
  type AttemptGroup,
  fitPasses,
  type Passed,
  type PassModel,
  type PassStratum,
} from '../../server/domain/statistics/passes/fit-passes.ts'
import { type JudgedCoaching, judgeCoaching } from '../../server/domain/statistics/passes/judge-coaching.ts'
import { readCsv } from './support/read-csv.ts'

const logistic = (x: number) => 1 / (1 + Math.exp(-x))

describe('the chances to pass', () => {
  // Open data of R's lme4: P. De Boeck & M. Wilson (2004), Explanatory Item Response Models. One fixed effect an item, normal
  // persons, glmer with 15 adaptive points.
  test('of 316 persons and 24 items are those of lme4', () => {
    const rows = readCsv('verbagg_316x24.csv')
    const items = Object.keys(rows[0]!).filter((name) => name !== 'person' && name !== 'id')
    const strata = items.map((_, place): PassStratum => ({ place, kind: 'first', severity: 0 }))
    const groups = rows.map((row): AttemptGroup => {
      return { attempts: items.map((name, i): Passed => [i, Number(row[name]) as 0 | 1]), count: 1 }
    })
    const { logits, spread } = fitPasses(strata, groups, null)
    const reference = [
      1.2244, 0.5695, 0.0826, 1.7553, 0.7101, 0.0156, 0.5324, -0.6812, -1.523, 1.0865, -0.3429, -1.036, 1.2239, 0.3935,
      -0.8674, 0.8764, -0.0513, -1.476, -0.2053, -1.4981, -2.9746, 0.7125, -0.3785, -1.9947,
    ]
    expect(logits).toHaveLength(24)
    // The reference optimiser stopped early, and its points adapt to the person; ours stay where they are.
    expect(Math.max(...logits.map((logit, i) => Math.abs(logit - reference[i]!)))).toBeLessThan(0.02)
    expect(Math.abs(spread - 1.38475)).toBeLessThan(0.02)
  })
})

describe('the passes of a sponsor’s candidates', () => {
  const model: PassModel = { logits: [0.4, 1.1], spread: 1.2 }

  /** P(the passes are k), by trapezoids over each candidate's ability and every outcome, in the plainest way. */
  function bruteForce(groups: readonly CoachedGroup[]): number[] {
    let whole = new Map([[0, 1]])
    for (const { before, own, count } of groups) {
      for (let each = 0; each < count; each++) {
        const one = new Map<number, number>()
        let norm = 0
        for (let t = -8; t <= 8; t += 0.004) {
          const chance = (stratum: number) => logistic(model.logits[stratum]! + model.spread * t)
          const weight =
            Math.exp(-t * t * 0.5) * before.reduce((w, [s, passed]) => w * (passed ? chance(s) : 1 - chance(s)), 1)
          norm += weight
          for (let outcome = 0; outcome < 2 ** own.length; outcome++) {
            const marks = own.map((_, i) => (outcome >> i) & 1)
            const likely = own.reduce((w, [s], i) => w * (marks[i] ? chance(s) : 1 - chance(s)), weight)
            const k = marks.reduce((sum, mark) => sum + mark, 0)
            one.set(k, (one.get(k) ?? 0) + likely)
          }
        }
        const next = new Map<number, number>()
        for (const [a, pa] of whole) {
          for (const [b, pb] of one) next.set(a + b, (next.get(a + b) ?? 0) + (pa * pb) / norm)
        }
        whole = next
      }
    }
    return [...whole].sort(([a], [b]) => a - b).map(([, chance]) => chance)
  }

  test('have the distribution that integrating by brute force gives', () => {
    const groups: CoachedGroup[] = [
      { before: [], own: [[0, 0]], count: 3 },
      {
        before: [
          [0, 0],
          [1, 0],
        ],
        own: [[1, 1]],
        count: 1,
      },
      {
        before: [[0, 1]],
        own: [
          [0, 0],
          [1, 0],
        ],
        count: 2,
      },
    ]
    const chances = bruteForce(groups)
    const found = coachedPasses(model, [groups])[0]!
    expect(found).toMatchObject({ attempts: 8, passes: 1 })
    const mean = chances.reduce((sum, chance, k) => sum + k * chance, 0)
    expect(found.expected).toBeCloseTo(mean, 5)
    expect(found.sd ** 2).toBeCloseTo(
      chances.reduce((sum, chance, k) => sum + (k - mean) ** 2 * chance, 0),
      5,
    )
    expect(found.p).toBeCloseTo(2 * (chances[0]! + chances[1]!), 5)
  })

  test('are as expected where nothing else can be known', () => {
    expect(coachedPasses(model, [[]])).toEqual([{ attempts: 0, passes: 0, expected: 0, sd: 0, p: 1 }])
  })
})

interface World {
  readonly sponsors: number
  readonly candidatesEach: number
  /** Of the first sponsor, in logits of a trial. */
  readonly better: number
}

/**
 * A unit drawn by definition: 13 minors of 3 trials, 2 needed, 11 GO of 13, one major; ability 0.8, own strength 0.7, form 0.4;
 * those who fail come again, up to three times, some with another sponsor.
 */
function drawUnit(random: Random, { sponsors, candidatesEach, better }: World) {
  const normal = () => Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next())
  const ease = Array.from({ length: 13 }, () => 1.4 + 0.6 * normal())
  const kinds: readonly GainKind[] = ['first', 'second', 'later']
  const strata = kinds.map((kind): PassStratum => ({ place: 0, kind, severity: 0 }))
  const candidates: AttemptGroup[] = []
  const coached = Array.from({ length: sponsors }, (): CoachedGroup[] => [])
  for (let sponsor = 0; sponsor < sponsors; sponsor++) {
    for (let i = 0; i < candidatesEach; i++) {
      const ability = 0.8 * normal()
      const strengths = ease.map(() => 0.7 * normal())
      const attempts: { sponsor: number; passed: Passed }[] = []
      let present = sponsor
      for (let attempt = 0; attempt < 3; attempt++) {
        const level = ability + 0.4 * normal() + 0.3 * attempt + (present === 0 ? better : 0)
        const go = ease.filter((easy, m) => {
          const chance = logistic(easy + strengths[m]! + level)
          return [0, 1, 2].filter(() => random.next() < chance).length >= 2
        }).length
        const passed = go >= 11 && random.next() < 0.97
        attempts.push({ sponsor: present, passed: [attempt, passed ? 1 : 0] })
        if (passed) break
        if (random.next() < 0.2) present = random.integer(0, sponsors - 1)
      }
      candidates.push({ attempts: attempts.map(({ passed }) => passed), count: 1 })
      for (const who of new Set(attempts.map((one) => one.sponsor))) {
        const first = attempts.findIndex((one) => one.sponsor === who)
        const own = attempts.filter((one) => one.sponsor === who).map(({ passed }) => passed)
        coached[who]!.push({ before: attempts.slice(0, first).map(({ passed }) => passed), own, count: 1 })
      }
    }
  }
  return judgeCoaching(fitPasses(strata, candidates), coached)
}

describe('one verdict a sponsor', () => {
  const isCalled = ({ differs }: JudgedCoaching) => differs === 'above' || differs === 'below'

  test('calls nobody different in 95 % of the units where nobody is', () => {
    const random = createRandom(41)
    const units = 80
    let [called, intervals, held] = [0, 0, 0]
    for (let unit = 0; unit < units; unit++) {
      const judged = drawUnit(random, { sponsors: 12, candidatesEach: 14, better: 0 })
      if (judged.some(isCalled)) called += 1
      const common =
        judged.reduce((sum, one) => sum + one.passes, 0) / judged.reduce((sum, one) => sum + one.attempts, 0)
      for (const { estimate } of judged) {
        intervals += 1
        if (estimate.low <= common && common <= estimate.high) held += 1
        expect(estimate.low).toBeLessThan(estimate.high)
      }
    }
    console.info(
      `Nobody differs: somebody called in ${called} of ${units} units; intervals hold ${held} of ${intervals}`,
    )
    // 5 % and three standard errors.
    expect(called / units).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / units))
    expect(held / intervals).toBeGreaterThan(0.95)
  })

  test('finds a sponsor who adds a logit, with some 40 attempts, in more than half of the units', () => {
    const random = createRandom(42)
    const units = 24
    let [found, wrong] = [0, 0]
    for (let unit = 0; unit < units; unit++) {
      const judged = drawUnit(random, { sponsors: 12, candidatesEach: 28, better: 1 })
      if (judged[0]!.differs === 'above') found += 1
      if (judged.slice(1).some(isCalled)) wrong += 1
    }
    console.info(`One adds a logit: found in ${found} of ${units} units, another called in ${wrong}`)
    expect(found / units).toBeGreaterThan(0.5)
  })
})

test('the funnel’s limits by hand', () => {
  const one = { p: 1, adjustedP: 1, estimate: { rate: 0.5, low: 0.4, high: 0.6 }, differs: 'no' } as const
  // Variance of a pass: (4 + 1)/(16 + 4) = 0.25 around 10 of 20.
  const { lines, asked, mostAttempts } = coachingFunnel([
    { ...one, attempts: 16, passes: 8, expected: 8, sd: 2 },
    { ...one, attempts: 4, passes: 2, expected: 2, sd: 1, differs: 'few' },
  ])
  expect([asked, mostAttempts, lines.length]).toEqual([1, 16, 16])
  expect(lines[15]!.usual.low).toBeCloseTo(0.5 - 1.959963984540054 * 0.125, 10)
  expect(lines[15]!.called.high).toBeCloseTo(0.5 + 1.959963984540054 * 0.125, 10)
  expect(lines[0]!.usual).toEqual({ low: 0, high: 1 })
})
