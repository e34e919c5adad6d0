import { afterAll, describe, expect, test } from 'vitest'
import { createRandom, type Random } from '../../seed/generate/random.ts'
import { cohenKappa } from '../../server/domain/statistics/agreement/cohen-kappa.ts'
import { gwetAc1 } from '../../server/domain/statistics/agreement/gwet-ac1.ts'
import { pChart } from '../../server/domain/statistics/control/p-chart.ts'
import { compareManyRates } from '../../server/domain/statistics/proportions/compare-many-rates.ts'
import { compareRates } from '../../server/domain/statistics/proportions/compare-rates.ts'
import { exactInterval } from '../../server/domain/statistics/proportions/exact-interval.ts'
import { wilsonInterval } from '../../server/domain/statistics/proportions/wilson-interval.ts'
import { logRank } from '../../server/domain/statistics/survival/log-rank.ts'
import { kuderRichardson } from '../../server/domain/statistics/test-theory/kuder-richardson.ts'
import { responseSums } from '../../server/domain/statistics/test-theory/response-sums.ts'
import { beta, binomial, type Simulated, simulate, waitingDays } from './support/simulate.ts'

/*
 * What the intervals and verdicts do in worlds whose truth is known: the draws are made here, by definition of each model
 * and without the code under test. Seeded, so every run has the same figures; the bounds leave room for their own chance.
 */

const figures: string[] = []
const note = (what: string, share: number) => figures.push(`${what.padEnd(72)} ${(100 * share).toFixed(2)} %`)
afterAll(() => console.info(`\nSimulated\n${figures.join('\n')}\n`))

const holds = ({ low, high }: { low: number; high: number }, truth: number) => low <= truth && truth <= high
const few = (random: Random) => random.integer(5, 60)

/** A rate as common in tests, and how many were tested. */
const tested = (random: Random) => {
  const n = few(random)
  const rate = 0.05 + 0.9 * random.next()
  return { rate, n, count: binomial(random, n, rate) }
}

/** Expects a share to be the nominal one, give or take `slack` and four standard errors. */
function expectNear({ share, errorAt }: Simulated, nominal: number, slack: number): void {
  expect(Math.abs(share - nominal)).toBeLessThan(slack + 4 * errorAt(nominal))
}
function expectAtMost({ share, errorAt }: Simulated, nominal: number): void {
  expect(share).toBeLessThan(nominal + 4 * errorAt(nominal))
}

describe('95 % intervals hold the truth about as often as they say', () => {
  test('of a rate: Wilson on average, Clopper and Pearson at least', () => {
    const wilson = simulate(1, 20_000, (random) => {
      const { rate, ...share } = tested(random)
      const interval = wilsonInterval(share)
      return interval.kind === 'interval' && holds(interval, rate)
    })
    const exact = simulate(2, 3_000, (random) => {
      const { rate, ...share } = tested(random)
      const interval = exactInterval(share)
      return interval.kind === 'interval' && holds(interval, rate)
    })
    note('Wilson, rates of 5 to 95 %, 5 to 60 tested', wilson.share)
    note('Clopper–Pearson, the same', exact.share)
    expectNear(wilson, 0.95, 0.005)
    expect(exact.share).toBeGreaterThan(0.95)
  })

  test('of a difference of two rates', () => {
    const newcombe = simulate(3, 20_000, (random) => {
      const [first, second] = [tested(random), tested(random)]
      const compared = compareRates(first, second)
      return compared.kind === 'difference' && holds(compared.interval, first.rate - second.rate)
    })
    note('Newcombe’s difference of two such rates', newcombe.share)
    expectNear(newcombe, 0.95, 0.01)
  })

  // Sheets of one ability p have each measure GO with p; with p from Beta(a, b) two measures correlate 1/(a + b + 1), so
  // the reliability of k of them is k/(k + a + b) (Spearman–Brown).
  test('of KR-20', () => {
    const truth = 13 / (13 + 6)
    const feldt = simulate(5, 1_500, (random) => {
      const patterns = Array.from({ length: 60 }, () => {
        const ability = beta(random, 4, 2)
        return { marks: Array.from({ length: 13 }, () => Number(random.chance(ability))), count: 1 }
      })
      const judged = kuderRichardson(responseSums(patterns))
      return judged.kind === 'reliability' && holds(judged.interval, truth)
    })
    note('Feldt’s interval of KR-20, 60 sheets of 13 measures, reliability 0.68', feldt.share)
    expectNear(feldt, 0.95, 0.03)
  })

  // With probability r the second grader sees what the first saw, else what chance shows: kappa is r.
  test('of kappa and AC1', () => {
    const [go, r] = [0.75, 0.6]
    const bothGo = go * go + (1 - go) ** 2
    const ac1Truth = (r + (1 - r) * bothGo - 2 * go * (1 - go)) / (1 - 2 * go * (1 - go))
    const draw = (random: Random) => {
      const table: [[number, number], [number, number]] = [
        [0, 0],
        [0, 0],
      ]
      for (let sheet = 0; sheet < 60; sheet++) {
        const first = random.chance(go)
        const second = random.chance(r) ? first : random.chance(go)
        table[first ? 0 : 1][second ? 0 : 1] += 1
      }
      return table
    }
    const kappa = simulate(6, 6_000, (random) => {
      const judged = cohenKappa(draw(random))
      return judged.kind === 'agreement' && judged.interval ? holds(judged.interval, r) : null
    })
    const ac1 = simulate(7, 6_000, (random) => {
      const [[a, b], [c, d]] = draw(random)
      const judged = gwetAc1([
        { ratings: [2, 0], sheets: a },
        { ratings: [1, 1], sheets: b + c },
        { ratings: [0, 2], sheets: d },
      ])
      return judged.kind === 'agreement' && judged.interval ? holds(judged.interval, ac1Truth) : null
    })
    note('Cohen’s kappa of 0.6, 60 sheets graded twice, 75 % GO', kappa.share)
    note('Gwet’s AC1, the same', ac1.share)
    expectNear(kappa, 0.95, 0.02)
    expectNear(ac1, 0.95, 0.02)
  })
})

describe('false alarms come no oftener than they should', () => {
  test('of the p-chart, month by month', () => {
    // Two centres: of the same months, as the findings draw it, and known beforehand, for which 2/2⁸ is exact.
    const count = (seed: number, rate: number, size: (random: Random) => number, baseline?: number) => {
      const random = createRandom(seed)
      const seen = { months: 0, drawn: 0, beyond: 0, late: 0, run: 0 }
      for (let chart = 0; chart < 2_500; chart++) {
        const periods = Array.from({ length: 18 }, (_, i) => {
          const n = size(random)
          return { label: String(i), n, count: binomial(random, n, rate) }
        })
        const judged = pChart(periods, baseline)
        if (judged.kind === 'no-data') continue
        judged.points.forEach((point, i) => {
          if (point.kind === 'no-data') return
          seen.months += 1
          if (point.beyond) seen.drawn += 1
          if (point.signals.includes('beyond-limit')) seen.beyond += 1
          if (i < 7) return
          seen.late += 1
          if (point.signals.includes('run-of-eight')) seen.run += 1
        })
      }
      return { drawn: seen.drawn / seen.months, beyond: seen.beyond / seen.months, run: seen.run / seen.late }
    }
    const own = count(12, 0.15, (random) => random.integer(4, 40))
    const known = count(16, 0.5, (random) => 2 * random.integer(5, 20) + 1, 0.5)
    note('p-chart of 18 months, 4 to 40 tested, 15 %: past the drawn limit', own.drawn)
    note('… called beyond the limit, at most 0.27 %', own.beyond)
    note('… called a run of eight, from the eighth month on, at most 0.78 %', own.run)
    const rare = count(17, 0.02, (random) => random.integer(10, 40))
    note('p-chart of 2 %, 10 to 40 tested: called beyond the limit', rare.beyond)
    note('… called a run of eight', rare.run)
    note('p-chart at a known centre of 50 %: called a run of eight, 0.78 %', known.run)
    expect(own.beyond).toBeLessThan(0.0027)
    expect(own.drawn).toBeGreaterThan(own.beyond)
    expect(own.run).toBeLessThan(2 / 2 ** 8)
    expect(rare.beyond).toBeLessThan(0.0027)
    expect(rare.run).toBeLessThan(2 / 2 ** 8)
    expect(known.beyond).toBeLessThan(0.0027)
    expect(Math.abs(known.run - 2 / 2 ** 8)).toBeLessThan(0.002)
  })

  test('of many comparisons: units, companies', () => {
    const units = simulate(13, 600, (random) => {
      const pairs = Array.from({ length: 15 }, (_, i) => {
        const rate = 0.05 + 0.3 * random.next()
        const side = (n: number) => ({ n, count: binomial(random, n, rate) })
        return { key: String(i), first: side(60), second: side(400) }
      })
      return compareManyRates(pairs).some(({ verdict }) => verdict === 'higher' || verdict === 'lower')
    })
    const companies = simulate(15, 1_500, (random) => {
      const groups = ['A', 'B', 'C'].map((key) => ({
        key,
        tallies: Array.from({ length: 30 }, () => {
          const [event, seen] = [waitingDays(random, 60), random.integer(20, 200)]
          return { time: Math.min(event, seen), events: Number(event <= seen), censored: Number(event > seen) }
        }),
      }))
      const judged = logRank(groups)
      return judged.kind === 'compared' && judged.differs
    })
    note('15 measures of a unit like the rest: any called higher or lower', units.share)
    note('Log-rank of three companies alike: called different', companies.share)
    expectAtMost(units, 0.05)
    expectNear(companies, 0.05, 0.01)
  })
})
