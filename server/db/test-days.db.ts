import type { TestDay, TestDayBody } from '../contract/test-days.ts'
import type { Scope } from '../domain/access/scope.ts'
import type { Transaction } from './client.ts'
import { toDate } from './dates.ts'
import { Prisma } from './generated/client.ts'
import { sheetInScope, unitInScope } from './scope.db.ts'

export async function insertTestDay(tx: Transaction, { on, unitId, place }: TestDayBody): Promise<string> {
  const { id } = await tx.testDay.create({ data: { onDay: toDate(on), unitId, place }, select: { id: true } })
  return id
}

/** A page of test days, latest first. */
export async function listTestDays(
  tx: Transaction,
  scope: Scope,
  page: { limit: number; after: { on: string; id: string } | null },
): Promise<TestDay[]> {
  return tx.$queryRaw<TestDay[]>`
    SELECT d.id::text, d.on_day::text AS "on", d.unit_id::text AS "unitId", d.place,
      (SELECT count(*)::int FROM sheet s WHERE s.test_day_id = d.id
        AND ${sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)}) AS sheets
    FROM test_day d
    WHERE ${unitInScope(scope, Prisma.sql`d.unit_id`)} AND (${page.after === null} OR (d.on_day, d.id) < (${page.after?.on ?? '0001-01-01'}::date, ${page.after?.id ?? null}::uuid))
    ORDER BY d.on_day DESC, d.id DESC LIMIT ${page.limit}`
}
