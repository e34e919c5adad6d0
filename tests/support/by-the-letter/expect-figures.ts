import { expect } from 'vitest'
import type { SponsorFindings } from '../../../server/contract/findings/findings.ts'
import type { GraderFindings } from '../../../server/contract/findings/graders.ts'
import type { PairFindings } from '../../../server/contract/findings/pairs.ts'
import type { QualityFindings } from '../../../server/contract/findings/quality.ts'
import type { ReadingFindings } from '../../../server/contract/findings/readings.ts'
import type { TrendFindings } from '../../../server/contract/findings/trend.ts'
import type { TestApp } from '../build-test-app.ts'
import { readFacts } from './read-facts.ts'
import { type CountedAttempt, countedAttempts, type FindingsFilter, isAbout } from './recount.ts'

/**
 * Expects that the figures beside measures and credits, asked by each filter, are a recount of the sheets: readings,
 * graders and what was expected of them, months, pairs, item analysis. Versions must define their measures alike.
 */
export async function expectFigures(test: TestApp, filters: readonly FindingsFilter[]): Promise<void> {
  const facts = await readFacts(test)
  const attempts = countedAttempts(facts)
  for (const filter of filters) {
    const chosen = attempts.filter((one) => isAbout(one, filter))
    const query = new URLSearchParams(Object.entries(filter)).toString()
    const get = <Body>(kind: string) => test.office.get<Body>(`/api/findings/${kind}?${query}`)
    const sponsors = await get<SponsorFindings>('sponsors')
    expectOneVerdict(sponsors.items)
    const graders = await get<GraderFindings>('graders')
    expect(
      graders.items.map((one) => summary(one, one.graderId)),
      `graders ${query}`,
    ).toEqual(
      expectations(
        chosen,
        graders.items.map((one) => one.graderId),
        ({ sheet }) => sheet.body.graderId,
      ),
    )
    expect(new Set(graders.items.map((one) => one.graderId))).toEqual(
      new Set(chosen.map(({ sheet }) => sheet.body.graderId)),
    )
    expect(graders.basis, `basis ${query}`).toMatchObject({
      attempts: chosen.length,
      passes: chosen.filter(passed).length,
      stopped: chosen.filter(({ sheet }) => sheet.score.ending === 'stopped').length,
      recorded: chosen.filter(({ sheet }) => sheet.score.ending === 'recorded').length,
    })
    expect(readingsIn(await get<ReadingFindings>('readings')), `readings ${query}`).toEqual(readingsOf(chosen))
    expect(monthsIn(await get<TrendFindings>('trend')), `trend ${query}`).toEqual(monthsOf(chosen))
    expect(pairsIn(await get<PairFindings>('pairs')), `pairs ${query}`).toEqual(pairsOf(chosen))
    expect(answersIn(await get<QualityFindings>('quality')), `quality ${query}`).toEqual(answersOf(chosen))
  }
}

const passed = ({ sheet }: CountedAttempt) => sheet.score.outcome === 'GO'
/** Whoever differs does so by the false discovery rate over all with five attempts (Benjamini and Hochberg's steps, by hand). */
function expectOneVerdict(items: SponsorFindings['items']): void {
  const asked = items.filter(({ attempts }) => attempts >= 5).sort((a, b) => a.p - b.p)
  const last = asked.findLastIndex(({ p }, i) => p <= (0.05 * (i + 1)) / asked.length)
  for (const one of items) {
    const { attempts, passes, expected, estimate, differs } = one
    const isCalled = asked.indexOf(one) > -1 && asked.indexOf(one) <= last
    expect(differs).toBe(attempts < 5 ? 'few' : isCalled ? (passes > expected ? 'above' : 'below') : 'no')
    expect(expected).toBeGreaterThan(0)
    expect(expected).toBeLessThan(attempts)
    expect(estimate.low).toBeLessThan(estimate.rate)
    expect(estimate.rate).toBeLessThan(estimate.high)
  }
}

const rounded = (value: number) => Number(value.toFixed(9))
const sorted = (texts: readonly string[]) => [...texts].sort()

type Judged = Pick<GraderFindings['items'][number], 'attempts' | 'passes' | 'against' | 'notComparable'>

const summary = ({ attempts, passes, against, notComparable }: Judged, id: string) => ({
  id,
  attempts,
  passes,
  observed: against?.observed ?? 0,
  expected: rounded(against?.expected ?? 0),
  alone: notComparable.attempts,
})

/** For each person: own attempts and passes, and the sum of the unit's rates over those whose kind others have too. */
function expectations(
  chosen: readonly CountedAttempt[],
  ids: readonly string[],
  personOf: (one: CountedAttempt) => string | null,
) {
  const kindOf = ({ sheet, kind, noGos }: CountedAttempt) =>
    `${sheet.body.standard} ${sheet.body.arm} ${kind} ${Math.min(noGos, 2)}`
  return ids.map((id) => {
    const own = chosen.filter((one) => personOf(one) === id)
    const rated = own.map((one) => {
      const alike = chosen.filter((other) => kindOf(other) === kindOf(one))
      const isAlone = alike.every((other) => personOf(other) === id)
      return { one, isAlone, rate: alike.filter(passed).length / alike.length }
    })
    const compared = rated.filter(({ isAlone }) => !isAlone)
    return {
      id,
      attempts: own.length,
      passes: own.filter(passed).length,
      observed: compared.filter(({ one }) => passed(one)).length,
      expected: rounded(compared.reduce((sum, { rate }) => sum + rate, 0)),
      alone: rated.length - compared.length,
    }
  })
}

const readingsIn = ({ items }: ReadingFindings) =>
  sorted(
    items.map(({ standard, measure, gauge, low, within, high, overridden, bars }) => {
      expect(bars.reduce((sum, { count }) => sum + count, 0)).toBe(low.count + within.count + high.count)
      return `${standard} ${measure} ${gauge} ${low.count} ${within.count} ${high.count} ${overridden}`
    }),
  )

/** Of the gauge "tip", whose band is 4 to 6. */
function readingsOf(chosen: readonly CountedAttempt[]): string[] {
  const counts = new Map<string, [low: number, within: number, high: number, overridden: number]>()
  for (const { sheet } of chosen) {
    for (const { code, readings } of sheet.body.minors) {
      for (const { gauge, value, override } of readings) {
        const key = `${sheet.body.standard} ${code} ${gauge}`
        const count = counts.get(key) ?? [0, 0, 0, 0]
        counts.set(key, count)
        count[Number(value) < 4 ? 0 : Number(value) > 6 ? 2 : 1] += 1
        if (override !== null) count[3] += 1
      }
    }
  }
  return sorted([...counts].map(([key, count]) => `${key} ${count.join(' ')}`))
}

const monthsIn = ({ series }: TrendFindings) =>
  sorted(
    series
      .filter(({ measure }) => measure === null)
      .flatMap(({ standard, points }) =>
        points.filter(({ n }) => n > 0).map(({ month, count, n }) => `${standard} ${month} ${count}/${n}`),
      ),
  )

function monthsOf(chosen: readonly CountedAttempt[]): string[] {
  const keys = new Set(chosen.map(({ sheet }) => `${sheet.body.standard} ${sheet.day.slice(0, 7)}`))
  return sorted(
    [...keys].map((key) => {
      const own = chosen.filter(({ sheet }) => `${sheet.body.standard} ${sheet.day.slice(0, 7)}` === key)
      return `${key} ${own.filter((one) => !passed(one)).length}/${own.length}`
    }),
  )
}

const pairsIn = ({ items }: PairFindings) =>
  sorted(
    items
      .filter(({ n }) => n > 0)
      .map(({ standard, first, second, both, firstOnly, secondOnly, neither }) =>
        [standard, first, second, both, firstOnly, secondOnly, neither].join(' '),
      ),
  )

const PAIRS = [
  ['draw', 'halt'],
  ['draw', 'turn'],
  ['halt', 'turn'],
] as const

const outcomeOf = ({ sheet }: CountedAttempt, measure: string) =>
  sheet.score.minors.find(({ code }) => code === measure)?.outcome ?? 'not tested'

function pairsOf(chosen: readonly CountedAttempt[]): string[] {
  const standards = [...new Set(chosen.map(({ sheet }) => sheet.body.standard))]
  return sorted(
    standards.flatMap((standard) =>
      PAIRS.flatMap(([first, second]) => {
        const own = chosen.filter(({ sheet }) => sheet.body.standard === standard)
        const seen = own.map((one) => `${outcomeOf(one, first)} ${outcomeOf(one, second)}`)
        const counts = ['NO-GO NO-GO', 'NO-GO GO', 'GO NO-GO', 'GO GO'].map(
          (pair) => seen.filter((one) => one === pair).length,
        )
        return counts.every((count) => count === 0) ? [] : [[standard, first, second, ...counts].join(' ')]
      }),
    ),
  )
}

const answersIn = ({ items }: QualityFindings) =>
  sorted(
    items.map(({ standard, sheets, leftOut, measures }) => {
      const go = measures.map(({ difficulty }) => difficulty.count)
      return [standard, sheets, ...go, leftOut.undecided, leftOut.recorded].join(' ')
    }),
  )

function answersOf(chosen: readonly CountedAttempt[]): string[] {
  const standards = [...new Set(chosen.map(({ sheet }) => sheet.body.standard))]
  return sorted(
    standards.map((standard) => {
      const own = chosen.filter(({ sheet }) => sheet.body.standard === standard)
      const marked = own.filter(({ sheet }) => sheet.score.ending !== 'recorded')
      const complete = marked.filter((one) =>
        ['draw', 'halt', 'turn'].every((code) => outcomeOf(one, code) !== 'not tested'),
      )
      const go = ['draw', 'halt', 'turn'].map((code) => complete.filter((one) => outcomeOf(one, code) === 'GO').length)
      return [standard, complete.length, ...go, marked.length - complete.length, own.length - marked.length].join(' ')
    }),
  )
}
