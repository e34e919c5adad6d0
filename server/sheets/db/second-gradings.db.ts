import { sheetInScope, sheetNotBlinded } from '../../access/db/scope.db.ts'
import type { SecondGrading } from '../../contract/sheets/second-gradings.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** SQL: two sheets `a` and `b` of one attempt came to different outcomes; a void one is no judgement. */
const DIFFER = Prisma.sql`(a.ending <> 'void' AND b.ending <> 'void' AND a.outcome <> b.outcome)`

/** Whether a sheet and one of another grader of the same attempt came to different outcomes. */
export async function differsFromItsPair(tx: Transaction, sheetId: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    (SELECT FROM sheet a JOIN sheet b ON b.second_of = a.id WHERE a.id = ${sheetId}::uuid AND ${DIFFER} LIMIT 1)
    UNION ALL
    (SELECT FROM sheet b JOIN sheet a ON a.id = b.second_of WHERE b.id = ${sheetId}::uuid AND ${DIFFER} LIMIT 1)`
  return rows.length > 0
}

/** A page of attempts that two graded, latest first. */
export async function listSecondGradings(
  tx: Transaction,
  scope: Scope,
  { differing }: { differing: boolean },
  page: { limit: number; after: { day: string; id: string } | null },
): Promise<SecondGrading[]> {
  const conditions = [
    sheetInScope(scope, Prisma.sql`a.candidate_id`, Prisma.sql`a.grader_id`),
    sheetNotBlinded(scope, 'a'),
    sheetNotBlinded(scope, 'b'),
  ]
  if (differing) conditions.push(DIFFER)
  if (page.after) conditions.push(Prisma.sql`(b.day, b.id) < (${page.after.day}::date, ${page.after.id}::uuid)`)
  const graded = (alias: string, grader: string) =>
    Prisma.raw(`json_build_object('sheetId', ${alias}.id, 'graderId', ${alias}.grader_id,
      'grader', ${grader}.family_name || ', ' || ${grader}.given_name, 'outcome', ${alias}.outcome)`)
  return tx.$queryRaw<SecondGrading[]>`
    SELECT b.candidate_id::text AS "candidateId", c.family_name || ', ' || c.given_name AS candidate, st.code AS standard,
      b.day::text, ${graded('a', 'g')} AS first, ${graded('b', 'h')} AS second, ${DIFFER} AS differs
    FROM sheet b JOIN sheet a ON a.id = b.second_of JOIN standard st ON st.id = b.standard_id
    JOIN soldier c ON c.id = b.candidate_id JOIN soldier g ON g.id = a.grader_id JOIN soldier h ON h.id = b.grader_id
    WHERE b.second_of IS NOT NULL AND ${Prisma.join(conditions, ' AND ')}
    ORDER BY b.day DESC, b.id DESC LIMIT ${page.limit}`
}
