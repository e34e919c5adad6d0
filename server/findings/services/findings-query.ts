import type { Context } from '../../context/context.ts'
import type { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import type { StandardVersion } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { coverPeriod } from '../../domain/tallies/cover-period.ts'
import type { FindingsVersion, OfVersion } from '../../domain/tallies/version-counts.ts'
import { invalid } from '../../errors.ts'
import type { FindingsFilter } from '../db/findings-filter.db.ts'
import { type FindingsView, findingsView } from './findings-view.ts'

/** What findings are asked, narrowed to what the account may see. */
export interface FindingsQueryInScope {
  readonly filter: FindingsFilter
  /** Codes of the standards asked about. */
  readonly standards: readonly string[]
  readonly view: FindingsView
  /** Tells rows of the data layer which version they are of. */
  readonly ofVersion: <Row extends { readonly versionId: string }>(row: Row) => OfVersion<Row>
}

/**
 * Checks what was asked and narrows it to the scope of the account. Throws an AppError for a unit that is not there or out of scope, a standard that is not
 * there, and a period that ends before it begins.
 */
export async function findingsQuery(
  context: Context,
  actor: Actor,
  query: UnpagedFindingsQuery,
): Promise<FindingsQueryInScope> {
  const view = await findingsView(context, actor, query.unitId)
  const { from = null, to = null, standard, attempts, arm } = query
  requirePeriod(from, to)
  const { standards } = await context.catalogue.current(context.db)
  const versions = standard === undefined ? [...standards.values()].flat() : standards.get(standard)
  if (!versions) throw unknownStandard(standard!)
  const byId = new Map(versions.map((version) => [version.id, findingsVersion(version)]))
  return {
    view,
    standards: [...new Set(versions.map(({ code }) => code))],
    filter: {
      versionIds: [...byId.keys()],
      unitId: view.unitId,
      arm,
      attempts,
      from,
      to,
      periods: coverPeriod(from, to),
    },
    ofVersion: (row) => ({ ...row, of: byId.get(row.versionId)! }),
  }
}

export function requirePeriod(from: string | null, to: string | null): void {
  if (from !== null && to !== null && from > to) {
    throw invalid('period-upside-down', 'to', 'The period ends before it begins: mend from or to.')
  }
}

export const unknownStandard = (code: string) =>
  invalid('unknown-standard', 'standard', `There is no standard "${code}"; take its code from /api/standards.`)

const findingsVersion = ({ code, version, definition }: StandardVersion): FindingsVersion => ({
  standard: code,
  version,
  definition,
})
