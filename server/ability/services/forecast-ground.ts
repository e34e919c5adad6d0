import type { Context } from '../../context/context.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import { type MeasureLayout, measureLayout, type VersionPlaces } from '../../domain/ability/measure-layout.ts'
import { quarterOf } from '../../domain/ability/quarter.ts'
import { fitUnit } from '../../domain/ability/unit-fit.ts'
import { readFits, type StoredFit } from '../db/fits.db.ts'
import { type KindScore, readKindScores } from '../db/past-forecasts.db.ts'

/** What a forecast of anybody's next test of a standard rests on, beside their own past. */
export interface ForecastGround {
  readonly standard: string
  readonly standardId: string
  readonly layout: MeasureLayout
  /** Of the version in force. */
  readonly version: VersionPlaces
  readonly known: Pick<StoredFit, 'fit' | 'through' | 'fittedAt'>
  /** The same ground gives the same forecast of the same past. */
  readonly print: string
  readonly scores: readonly KindScore[]
}

export interface When {
  readonly asOf: string
  /** Only what was there then is used. */
  readonly isPast: boolean
}

/** The grounds of these standards, by code; those without a version in force that day are left out. */
export async function readForecastGrounds(
  context: Context,
  catalogue: Catalogue,
  standards: ReadonlySet<string>,
  { asOf, isPast }: When,
): Promise<Map<string, ForecastGround>> {
  const inForce = [...standards].flatMap((standard) => {
    const versions = (catalogue.standards.get(standard) ?? []).filter(({ publishedAt }) => publishedAt !== null)
    const version = versions.filter(({ effectiveFrom }) => effectiveFrom <= asOf).at(-1)
    return version ? [{ standard, standardId: version.standardId, versions, version: version.version }] : []
  })
  const ids = inForce.map(({ standardId }) => standardId)
  if (ids.length === 0) return new Map()
  const fits = await readFits(context.db, ids, isPast ? quarterOf(asOf) : null)
  const scores = await keptScores(context, [...fits.values()].map(({ fingerprint }) => fingerprint).join(), ids, asOf)
  return new Map(
    inForce.map(({ standard, standardId, versions, version }) => {
      const layout = measureLayout(versions)
      const stored = fits.get(standardId)
      const own = scores.filter((one) => one.standardId === standardId)
      const ground: ForecastGround = {
        standard,
        standardId,
        layout,
        version: layout.ofVersion.get(version)!,
        known: stored ?? unfitted(context, layout),
        print: `${standardId} ${version} ${catalogue.revision} ${stored?.fingerprint ?? ''} ${JSON.stringify(own)}`,
        scores: own,
      }
      return [standard, ground]
    }),
  )
}

/** Before the first fit there are the priors. */
function unfitted(context: Context, layout: MeasureLayout): ForecastGround['known'] {
  return { fit: fitUnit(layout, [], null), through: null, fittedAt: context.clock() }
}

/** How past forecasts did is a walk over them, so it is kept for as long as this while the fits are the same. */
const KEPT_MS = 60_000
const MOST_KEPT = 200
const kept = new WeakMap<
  object,
  Map<string, { readonly until: number; readonly scores: ReturnType<typeof readKindScores> }>
>()

function keptScores(
  { db }: Context,
  fits: string,
  ids: readonly string[],
  asOf: string,
): ReturnType<typeof readKindScores> {
  const ofDatabase = kept.get(db) ?? new Map()
  kept.set(db, ofDatabase)
  const key = `${fits} ${ids} ${asOf}`
  const found = ofDatabase.get(key)
  if (found && found.until > performance.now()) return found.scores
  if (ofDatabase.size >= MOST_KEPT) ofDatabase.clear()
  const scores = readKindScores(db, ids, asOf)
  scores.catch(() => ofDatabase.delete(key))
  ofDatabase.set(key, { until: performance.now() + KEPT_MS, scores })
  return scores
}
