import type { GainKind } from '../ability/attempt-kind.ts'
import { type MeasureEra, measureEras } from '../standards/measure-eras.ts'
import { mantelHaenszel, type Stratum } from '../statistics/association/mantel-haenszel.ts'
import { benjaminiHochberg } from '../statistics/proportions/benjamini-hochberg.ts'
import { FEW_ATTEMPTS } from '../statistics/proportions/few-attempts.ts'
import type { Share } from '../statistics/proportions/share.ts'
import { distinctVersions } from './pool-measures.ts'
import { byStandard, type OfVersion } from './version-counts.ts'

/** How many attempts have exactly these marks: of one sponsor's candidates, or of all other sponsors'. */
export type CoachedPattern = OfVersion<{
  readonly kind: GainKind
  readonly isOwn: boolean
  readonly marks: string
  readonly sheets: number
}>

export interface SponsorMeasure extends MeasureEra {
  readonly standard: string
  /** NO-GO of those tested: of the sponsor's candidates, and of all others with a sponsor. */
  readonly own: Share
  readonly others: Share
  /** NO-GO that such candidates have with other sponsors, and the verdict; `few`: too little to ask. */
  readonly expected: number | null
  readonly adjustedP: number | null
  readonly differs: 'more' | 'fewer' | 'no' | 'few'
}

const FALSE_SHARE = 0.05

/**
 * What a sponsor's candidates fail, measure by measure, beside the candidates of all others.
 *
 * Held against those of the same kind of attempt and the same score on all other measures, so that a measure stands out only
 * where the candidates are worse at it than at the rest (Mantel and Haenszel); all measures are one family (Benjamini and
 * Hochberg). Attempts of one candidate are taken as independent given that.
 * In: patterns. Out: those failed more than others of the kind first, then by share NO-GO, few last.
 */
export function sponsorMeasures(patterns: readonly CoachedPattern[]): SponsorMeasure[] {
  const counted = [...byStandard(patterns)].flatMap(([standard, ofStandard]) => {
    const eras = measureEras(distinctVersions(ofStandard))
    const tables = new Map<MeasureEra, Map<string, { a: number; b: number; c: number; d: number }>>()
    for (const row of ofStandard) addPattern(tables, row, eras.get(row.of.version)!)
    return [...tables].map(([era, strata]) => ({ standard, era, strata: [...strata.values()] }))
  })
  const judged = counted.map((one) => ({ ...one, ...sharesOf(one.strata), found: mantelHaenszel(one.strata) }))
  const asked = judged.filter(
    ({ own, found }) => own.n >= FEW_ATTEMPTS && found.kind === 'association' && found.isEnough,
  )
  const adjusted = benjaminiHochberg(asked.map(({ found }) => (found.kind === 'association' ? found.p : 1)))
  const items = judged
    .filter(({ own }) => own.n > 0)
    .map(({ standard, era, own, others, found }): SponsorMeasure => {
      const place = asked.findIndex((one) => one.era === era && one.standard === standard)
      const adjustedP = place === -1 ? null : adjusted[place]!
      const surplus = found.kind === 'association' ? found.observed - found.expected : 0
      const expected = found.kind === 'association' ? Math.max(0, own.count - surplus) : null
      const side = surplus > 0 ? 'more' : 'fewer'
      const differs = adjustedP === null ? 'few' : adjustedP <= FALSE_SHARE ? side : 'no'
      return { ...era, standard, own, others, expected, adjustedP, differs }
    })
  const share = ({ own }: SponsorMeasure) => own.count / own.n
  const isFew = ({ own }: SponsorMeasure) => own.n < FEW_ATTEMPTS
  return items.sort(
    (a, b) =>
      Number(b.differs === 'more') - Number(a.differs === 'more') ||
      Number(isFew(a)) - Number(isFew(b)) ||
      share(b) - share(a) ||
      b.own.n - a.own.n ||
      (a.measure < b.measure ? -1 : 1),
  )
}

function addPattern(
  tables: Map<MeasureEra, Map<string, { a: number; b: number; c: number; d: number }>>,
  { of, kind, isOwn, marks, sheets }: CoachedPattern,
  eras: ReadonlyMap<string, MeasureEra>,
): void {
  const { majors, minors } = of.definition
  const minorMarks = marks.slice(majors.length)
  const go = [...minorMarks].filter((mark) => mark === 'G').length
  const decided = [...minorMarks].filter((mark) => mark !== '-').length
  ;[...majors, ...minors].forEach(({ code }, place) => {
    const mark = marks[place]
    if (mark !== 'G' && mark !== 'N') return
    const isMinor = place >= majors.length
    const rest = isMinor ? `${decided} ${go - Number(mark === 'G')}` : `${decided} ${go}`
    const era = eras.get(code)!
    const strata = tables.get(era) ?? new Map()
    tables.set(era, strata)
    const key = `${of.version} ${kind} ${rest}`
    const table = strata.get(key) ?? { a: 0, b: 0, c: 0, d: 0 }
    strata.set(key, table)
    table[isOwn ? (mark === 'N' ? 'a' : 'b') : mark === 'N' ? 'c' : 'd'] += sheets
  })
}

function sharesOf(strata: readonly Stratum[]): { own: Share; others: Share } {
  const sum = (of: 'a' | 'b' | 'c' | 'd') => strata.reduce((total, table) => total + table[of], 0)
  const [a, b, c, d] = [sum('a'), sum('b'), sum('c'), sum('d')]
  return { own: { count: a, n: a + b }, others: { count: c, n: c + d } }
}
