import { subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { type FindingsFilter, fromKept, fromTallies, talliedUnits } from './findings-filter.db.ts'

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
  const ofArm = arm === undefined ? Prisma.empty : Prisma.sql`AND t.arm = ${arm}`
  const changes = [Prisma.sql`t.standard_version_id = ANY(${[...versionIds]}::uuid[])`]
  if (from !== null) changes.push(Prisma.sql`t.day >= ${from}::date`)
  if (to !== null) changes.push(Prisma.sql`t.day <= ${to}::date`)
  if (unitId !== undefined) changes.push(Prisma.sql`t.unit_id = ANY(${subtree(unitId)})`)
  const [row] = await tx.$queryRaw<[NotCounted]>`
    SELECT COALESCE(sum(sheets) FILTER (WHERE why = 'held'), 0)::int AS held,
      COALESCE(sum(sheets) FILTER (WHERE why = 'rejected'), 0)::int AS rejected,
      COALESCE(sum(sheets) FILTER (WHERE why = 'void'), 0)::int AS void,
      COALESCE(sum(sheets) FILTER (WHERE why = 'practice'), 0)::int AS practice,
      COALESCE(sum(sheets) FILTER (WHERE why = 'second'), 0)::int AS "secondGrader"
    FROM (
      SELECT t.why, t.sheets ${fromKept(filter, Prisma.sql`not_counted_tally`, talliedUnits(unitId))} WHERE true ${ofArm}
      UNION ALL
      SELECT t.why, t.sheets FROM not_counted_change t WHERE ${Prisma.join(changes, ' AND ')} ${ofArm}) kept`
  return row
}
