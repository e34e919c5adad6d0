import { expect } from 'vitest'
import type { SponsorFindings } from '../../../server/contract/findings/findings.ts'
import type { GraderFindings } from '../../../server/contract/findings/graders.ts'
import type { PairFindings } from '../../../server/contract/findings/pairs.ts'
import type { QualityFindings } from '../../../server/contract/findings/quality.ts'
import type { ReadingFindings } from '../../../server/contract/findings/readings.ts'
import type { TrendFindings } from '../../../server/contract/findings/trend.ts'
import type { TestApp } from '../build-test-app.ts'
import { type Facts, readFacts, type SheetFact } from './read-facts.ts'
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
      graders.items.map(({ graderId, attempts, passes, twice }) => ({
        graderId,
        attempts,
        passes,
        twice: twice && [twice.attempts, twice.stricter, twice.lenient],
      })),
      `graders ${query}`,
    ).toEqual(
      graders.items.map(({ graderId }) => {
        const own = chosen.filter(({ sheet }) => sheet.body.graderId === graderId)
        return {
          graderId,
          attempts: own.length,
          passes: own.filter(passed).length,
          twice: strictness(facts, chosen, graderId),
        }
      }),
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
    const analysed = attempts.filter((one) => isAbout(one, { ...filter, attempts: filter.attempts ?? 'first' }))
    expect(answersIn(await get<QualityFindings>('quality')), `quality ${query}`).toEqual(answersOf(analysed))
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

const sorted = (texts: readonly string[]) => [...texts].sort()

/** Pairs of sheets of one attempt with this grader on one, and on how many of them this grader was stricter, or more lenient. */
function strictness(facts: Facts, chosen: readonly CountedAttempt[], graderId: string): number[] | null {
  const isMarked = ({ body }: SheetFact) => body.outcomeOnly === null
  const differences = chosen.flatMap(({ sheet }) => {
    const seconds = facts.sheets.filter(
      ({ body, state, score }) =>
        body.secondOf === sheet.id &&
        state === 'counted' &&
        body.purpose === 'test' &&
        score.outcome !== 'VOID' &&
        body.candidateId === sheet.body.candidateId &&
        body.standard === sheet.body.standard &&
        body.graderId !== sheet.body.graderId,
    )
    const all = isMarked(sheet) ? [sheet, ...seconds.filter(isMarked)] : []
    return all.flatMap((one, i) =>
      all.slice(i + 1).flatMap((other) => {
        const stricter = [...marksOf(one)].reduce((sum, [measure, mark]) => {
          const there = marksOf(other).get(measure)
          return there === undefined || there === mark ? sum : sum + (mark === 'NO-GO' ? 1 : -1)
        }, 0)
        if (one.body.graderId === graderId) return [stricter]
        return other.body.graderId === graderId ? [-stricter] : []
      }),
    )
  })
  if (differences.length === 0) return null
  const count = (of: (difference: number) => boolean) => differences.filter(of).length
  return [differences.length, count((one) => one > 0), count((one) => one < 0)]
}

/** GO and NO-GO of every decided measure. */
const marksOf = ({ body, score }: SheetFact): Map<string, string> =>
  new Map([
    ...body.majors.flatMap(({ code, mark }): [string, string][] => (mark === null ? [] : [[`major ${code}`, mark]])),
    ...score.minors.flatMap(({ code, outcome }): [string, string][] =>
      outcome === 'GO' || outcome === 'NO-GO' ? [[`minor ${code}`, outcome]] : [],
    ),
  ])

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
