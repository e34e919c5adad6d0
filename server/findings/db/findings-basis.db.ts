import { subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { type FindingsFilter, fromTallies } from './findings-filter.db.ts'

export interface AttemptTotals {
  readonly attempts: number
  readonly passes: number
  readonly stopped: number
  readonly recorded: number
}

/** How many attempts a filter holds, and how they came out. */
export async function readAttemptTotals(tx: Transaction, filter: FindingsFilter): Promise<AttemptTotals> {
  const [row] = await tx.$queryRaw<[AttemptTotals]>`
    SELECT COALESCE(sum(t.attempts), 0)::int AS attempts, COALESCE(sum(t.passes), 0)::int AS passes,
      COALESCE(sum(t.stopped), 0)::int AS stopped, COALESCE(sum(t.recorded), 0)::int AS recorded ${fromTallies(filter)}`
  return row
}

export interface NotCounted {
  readonly held: number
  readonly rejected: number
  readonly void: number
  readonly secondGrader: number
  readonly practice: number
}

/** Sheets that are no attempts, by why, each once by the first reason: of the filter's standards, arm, unit and days. */
export async function readNotCounted(tx: Transaction, filter: FindingsFilter): Promise<NotCounted> {
  const { versionIds, unitId, arm, from, to } = filter
  const conditions = [
    Prisma.sql`s.tallied_kind IS NULL`,
    Prisma.sql`s.standard_version_id = ANY(${[...versionIds]}::uuid[])`,
  ]
  if (from !== null) conditions.push(Prisma.sql`s.day >= ${from}::date`)
  if (to !== null) conditions.push(Prisma.sql`s.day <= ${to}::date`)
  if (arm !== undefined) conditions.push(Prisma.sql`s.arm = ${arm}`)
  if (unitId !== undefined) {
    conditions.push(Prisma.sql`EXISTS (SELECT FROM soldier_period p WHERE p.soldier_id = s.candidate_id
      AND daterange(p.from_day, p.through_day, '[]') @> s.day AND p.unit_id = ANY(${subtree(unitId)}))`)
  }
  const [row] = await tx.$queryRaw<[NotCounted]>`
    SELECT count(*) FILTER (WHERE why = 'held')::int AS held, count(*) FILTER (WHERE why = 'rejected')::int AS rejected,
      count(*) FILTER (WHERE why = 'void')::int AS void, count(*) FILTER (WHERE why = 'practice')::int AS practice,
      count(*) FILTER (WHERE why = 'second')::int AS "secondGrader"
    FROM (SELECT CASE WHEN s.purpose = 'practice' THEN 'practice' WHEN s.state <> 'counted' THEN s.state
        WHEN s.outcome = 'VOID' THEN 'void' WHEN s.second_of IS NOT NULL THEN 'second' END AS why
      FROM sheet s WHERE ${Prisma.join(conditions, ' AND ')}) sheets`
  return row
}
