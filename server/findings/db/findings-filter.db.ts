import { subtree } from '../../access/db/scope.db.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { PeriodRange } from '../../domain/tallies/cover-period.ts'
import { NO_UNIT } from '../../domain/tallies/spread-contributions.ts'

/** Which counted attempts an answer is about. */
export interface FindingsFilter {
  /** Versions of the standards asked about. */
  readonly versionIds: readonly string[]
  /** The candidate's unit that day, with all below it; undefined: the whole record. */
  readonly unitId: string | undefined
  readonly arm: string | undefined
  readonly attempts: 'first' | 'retest' | 'renewal' | 'all'
  /** First and last day; null: no limit. */
  readonly from: string | null
  readonly to: string | null
  /** The same days in whole years, months and days. */
  readonly periods: readonly PeriodRange[]
}

/** SQL of a table of the ids under which tallies of a unit are kept; undefined: the tops of the tree, and of no unit. */
export const talliedUnits = (unitId: string | undefined): Prisma.Sql =>
  unitId === undefined
    ? Prisma.sql`(SELECT id FROM unit WHERE parent_id IS NULL UNION ALL SELECT ${NO_UNIT}::uuid)`
    : Prisma.sql`(VALUES (${unitId}::uuid))`

/**
 * FROM and WHERE of the tallies `t` that add up to the attempts of a filter, in `units` (see `talliedUnits`). Each range of
 * the period is one step down the index of tallies; it is given in VALUES so that the planner knows how few there are.
 */
export function fromTallies(filter: FindingsFilter, units = talliedUnits(filter.unitId)): Prisma.Sql {
  const { arm, attempts } = filter
  return Prisma.sql`
    ${fromKept(filter, Prisma.sql`tally`, units)}
    WHERE t.attempts > 0 ${arm === undefined ? Prisma.empty : Prisma.sql`AND t.arm = ${arm}`} 
      ${attempts === 'all' ? Prisma.empty : Prisma.sql`AND ${isOfKind(attempts, Prisma.sql`t.kind`)}`}`
}

/** FROM of the rows `t` of a kept table that add up to the versions, units and days of a filter. */
export function fromKept({ versionIds, periods }: FindingsFilter, table: Prisma.Sql, units: Prisma.Sql): Prisma.Sql {
  const spans = periods.map(({ grain, first, last }) => Prisma.sql`(${grain}::text, ${first}::date, ${last}::date)`)
  return Prisma.sql`
    FROM ${units} AS top(id) CROSS JOIN (VALUES ${Prisma.join(spans)}) AS span(grain, first, last)
    JOIN ${table} t ON t.unit_id = top.id AND t.standard_version_id = ANY(${[...versionIds]}::uuid[])
      AND t.grain = span.grain AND t.start BETWEEN span.first AND span.last`
}

const isOfKind = (attempts: 'first' | 'retest' | 'renewal', column: Prisma.Sql): Prisma.Sql =>
  attempts === 'retest' ? Prisma.sql`${column} IN ('second', 'later')` : Prisma.sql`${column} = ${attempts}`

/** SQL that is true for the attempts of a filter among rows of `sheet`; `s` is its alias. */
export function isAttemptOf(filter: FindingsFilter, s: Prisma.Sql): Prisma.Sql {
  const { versionIds, unitId, arm, attempts, from, to } = filter
  const conditions = [
    Prisma.sql`${s}.tallied_kind IS NOT NULL`,
    Prisma.sql`${s}.standard_version_id = ANY(${[...versionIds]}::uuid[])`,
  ]
  if (unitId !== undefined) conditions.push(Prisma.sql`${s}.tallied_unit_id = ANY(${subtree(unitId)})`)
  if (from !== null) conditions.push(Prisma.sql`${s}.day >= ${from}::date`)
  if (to !== null) conditions.push(Prisma.sql`${s}.day <= ${to}::date`)
  if (arm !== undefined) conditions.push(Prisma.sql`${s}.arm = ${arm}`)
  if (attempts !== 'all') conditions.push(isOfKind(attempts, Prisma.sql`${s}.tallied_kind`))
  return Prisma.sql`(${Prisma.join(conditions, ' AND ')})`
}
