import type { StandardBody } from '../contract/standards/standards.ts'
import type { JudgingCatalogue } from '../domain/assessment/types.ts'
import type { Approval, Certification } from '../domain/certification/types.ts'
import type { Level } from '../domain/people/levels.ts'
import type { Transaction } from './client.ts'
import { readLevels } from './levels.db.ts'

/** A version of a standard as stored. */
export interface StandardVersion {
  readonly id: string
  readonly standardId: string
  readonly code: string
  readonly version: number
  readonly effectiveFrom: string
  readonly equivalentToPrevious: boolean
  readonly publishedAt: string | null
  readonly definition: StandardBody
}

export interface StoredTerms {
  readonly effectiveFrom: string
  readonly approval: Approval
  readonly extensionDays: number
  readonly requiredGrades: readonly string[] | null
  readonly requiredUnits: readonly string[] | null
}

export interface StoredCertification extends Certification {
  readonly id: string
  readonly title: string
  readonly terms: readonly (Certification['terms'][number] & StoredTerms)[]
}

/** All standards and certifications, and what levels of units are called, as of one revision of the catalogue. */
export interface Catalogue {
  readonly revision: bigint
  readonly standards: ReadonlyMap<string, readonly StandardVersion[]>
  readonly certifications: readonly StoredCertification[]
  readonly judging: JudgingCatalogue
  readonly levels: readonly Level[]
}

export interface CatalogueCache {
  /** The catalogue as it is now; read anew only when its revision has changed. */
  current(tx: Transaction): Promise<Catalogue>
  /** The same for who has asked for its revision already. */
  ofRevision(tx: Transaction, revision: bigint): Promise<Catalogue>
}

/** Keeps the last catalogue read, so that an ordinary request asks only for its revision. */
export function catalogueCache(): CatalogueCache {
  let kept: Catalogue | undefined
  const ofRevision = async (tx: Transaction, revision: bigint) => {
    if (kept?.revision === revision) return kept
    kept = await readCatalogue(tx)
    return kept
  }
  return { ofRevision, current: async (tx) => ofRevision(tx, await readCatalogueRevision(tx)) }
}

/** The revision of the catalogue, which goes up with every change of it. */
export async function readCatalogueRevision(tx: Transaction): Promise<bigint> {
  const rows = await tx.$queryRaw<{ revision: bigint }[]>`SELECT revision FROM catalogue`
  return rows[0]!.revision
}

/** Reads all of it, past any cache: within a transaction that changes it. */
export async function readCatalogue(tx: Transaction): Promise<Catalogue> {
  const revision = await readCatalogueRevision(tx)
  const versions = await tx.$queryRaw<StandardVersion[]>`
    SELECT v.id::text, s.id::text AS "standardId", s.code, v.version, v.effective_from::text AS "effectiveFrom",
      v.equivalent_to_previous AS "equivalentToPrevious",
      to_char(v.published_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "publishedAt", v.definition
    FROM standard_version v JOIN standard s ON s.id = v.standard_id`
  const certifications = await tx.$queryRaw<StoredCertification[]>`
    SELECT c.id::text, c.code, c.title, c.arms,
      (SELECT json_agg(s.code ORDER BY cs.position) FROM certification_standard cs
        JOIN standard s ON s.id = cs.standard_id WHERE cs.certification_id = c.id) AS standards,
      (SELECT json_agg(json_build_object('effectiveFrom', t.effective_from, 'sequence', t.sequence,
        'windowDays', t.window_days, 'validityMonths', t.validity_months, 'waitDays', t.wait_days,
        'dueDays', t.due_days, 'reviewAfter', t.review_after, 'approval', t.approval,
        'extensionDays', t.extension_days, 'requiredGrades', t.required_grades, 'requiredUnits', t.required_units) ORDER BY t.effective_from)
        FROM certification_terms t WHERE t.certification_id = c.id) AS terms
    FROM certification c`
  const standards = new Map<string, StandardVersion[]>()
  versions.sort((a, b) => compareCodes(a, b) || a.version - b.version)
  certifications.sort(compareCodes)
  for (const version of versions) standards.set(version.code, [...(standards.get(version.code) ?? []), version])
  const levels = await readLevels(tx)
  return { revision, standards, certifications, judging: judgingCatalogue(versions, certifications), levels }
}

/** By code unit, whatever the collation of the database. */
const compareCodes = (a: { code: string }, b: { code: string }): number =>
  a.code < b.code ? -1 : a.code > b.code ? 1 : 0

function judgingCatalogue(
  versions: readonly StandardVersion[],
  certifications: readonly StoredCertification[],
): JudgingCatalogue {
  return {
    certifications,
    versions: versions.map(({ code, version, definition, publishedAt, effectiveFrom }) => ({
      standard: code,
      version,
      arms: definition.arms,
      published: publishedAt !== null,
      effectiveFrom,
    })),
    breaks: versions
      .filter((one) => one.publishedAt !== null && !one.equivalentToPrevious)
      .map(({ code, version, effectiveFrom }) => ({ standard: code, version, effectiveFrom })),
  }
}

/**
 * Marks the catalogue as changed, for every server process. By how much is left to chance: a revision that is lost with a
 * primary may be in the cache of a process that saw it, and the next primary must not give its number to another catalogue.
 */
export async function bumpRevision(tx: Transaction): Promise<void> {
  await tx.$executeRaw`UPDATE catalogue SET revision = revision + 1 + floor(random() * 1000000000)::bigint`
}
