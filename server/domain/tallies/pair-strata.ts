import { gaussHermite } from '../ability/gauss-hermite.ts'
import type { MeasureEra } from '../standards/measure-eras.ts'
import { fitPasses, logistic, type Passed, type PassModel } from '../statistics/passes/fit-passes.ts'
import type { PatternCount } from './version-counts.ts'

/** Sheets alike in everything but two measures: NO-GO on both, on the first alone, on the second alone, on neither. */
export interface PairStratum {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly d: number
  readonly excess: number
}

const POINTS = 21

/**
 * The two-by-two tables of pairs of measures by the score on all other measures, so that ability is held as fixed as that score
 * tells it; and what the score leaves of ability, as the surplus of both NO-GO that it makes. The latter is the covariance of the
 * two chances over ability given the others' marks, in a model with one ease a measure and one normal ability a sheet: without
 * it, large numbers call everything together, for a score of some eleven measures is no exact measure of anybody.
 * Source: P. W. Holland & P. R. Rosenbaum (1986), *Ann. Statist.* 14:1523–1543 (association given the rest score); G. Rasch's model,
 * in which the rest score says all the other measures say.
 * In: the patterns of one standard, the eras of its measures. Out: a function of two measures of one era each that gives their strata.
 */
export function pairStrata(
  patterns: readonly PatternCount[],
  eras: ReadonlyMap<number, ReadonlyMap<string, MeasureEra>>,
): (first: MeasureEra, second: MeasureEra) => PairStratum[] {
  const places = new Map<MeasureEra, number>()
  const sheets = patterns.flatMap(({ of, marks, sheets: count }) => {
    if (marks === '') return []
    const own = of.definition.minors.map(({ code }) => eras.get(of.version)!.get(code)!)
    const decided = own.flatMap((era, i): Passed[] => {
      const mark = marks[of.definition.majors.length + i]
      if (mark !== 'G' && mark !== 'N') return []
      if (!places.has(era)) places.set(era, places.size)
      return [[places.get(era)!, mark === 'G' ? 1 : 0]]
    })
    return decided.length < 3 ? [] : [{ decided, count }]
  })
  const strata = [...places.values()].map((place) => ({ place, kind: 'first' as const, severity: 0 }))
  const model = fitPasses(
    strata,
    sheets.map(({ decided, count }) => ({ attempts: decided, count })),
  )
  const alike = groupAlike(sheets, model)
  return (first, second) => strataOf(alike, model, places.get(first) ?? -1, places.get(second) ?? -1)
}

/** Sheets that decided the same measures: by their marks, with the chance that nothing was GO at each point of ability. */
interface Alike {
  readonly decided: ReadonlySet<number>
  readonly noneGo: readonly number[]
  readonly sheets: { readonly go: ReadonlySet<number>; readonly count: number }[]
}

function groupAlike(sheets: readonly { decided: readonly Passed[]; count: number }[], model: PassModel): Alike[] {
  const groups = new Map<string, Alike>()
  for (const { decided, count } of sheets) {
    const key = decided.map(([place]) => place).join()
    const group = groups.get(key) ?? {
      decided: new Set(decided.map(([place]) => place)),
      noneGo: abilities(model).map((ability) =>
        decided.reduce((product, [place]) => product * (1 - logistic(model.logits[place]! + ability)), 1),
      ),
      sheets: [],
    }
    groups.set(key, group)
    group.sheets.push({ go: new Set(decided.flatMap(([place, passed]) => (passed === 1 ? [place] : []))), count })
  }
  return [...groups.values()]
}

const abilities = ({ spread }: PassModel) => gaussHermite(POINTS).points.map((t) => spread * t)

function strataOf(alike: readonly Alike[], model: PassModel, first: number, second: number): PairStratum[] {
  return alike.flatMap(({ decided, noneGo, sheets }) => {
    if (!decided.has(first) || !decided.has(second)) return []
    const byScore = new Map<number, { a: number; b: number; c: number; d: number }>()
    for (const { go, count } of sheets) {
      const [one, other] = [go.has(first), go.has(second)]
      const score = go.size - Number(one) - Number(other)
      const table = byScore.get(score) ?? { a: 0, b: 0, c: 0, d: 0 }
      byScore.set(score, table)
      table[one ? (other ? 'd' : 'c') : other ? 'b' : 'a'] += count
    }
    return [...byScore].map(([score, table]) => {
      const n = table.a + table.b + table.c + table.d
      return { ...table, excess: (n - 1) * covariance(model, noneGo, first, second, score) }
    })
  })
}

/** Of the two chances, over ability given how many of the other measures were GO. */
function covariance(model: PassModel, noneGo: readonly number[], first: number, second: number, score: number): number {
  const { weights } = gaussHermite(POINTS)
  let [total, one, other, both] = [0, 0, 0, 0]
  abilities(model).forEach((ability, n) => {
    const [p, q] = [logistic(model.logits[first]! + ability), logistic(model.logits[second]! + ability)]
    const weight = (weights[n]! * Math.exp(score * ability) * noneGo[n]!) / ((1 - p) * (1 - q))
    total += weight
    one += weight * p
    other += weight * q
    both += weight * p * q
  })
  return both / total - (one / total) * (other / total)
}
