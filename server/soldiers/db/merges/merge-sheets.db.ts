import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'
import type { StoodBefore } from '../../../domain/assessment/types.ts'

/** Candidates of a person's tests, graded or sponsored too, and those they coach: whose sheets hang on who this is. */
export async function findTouched(tx: Transaction, soldierId: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT candidate_id::text AS id FROM sheet WHERE candidate_id = ${soldierId}::uuid OR sponsor_id = ${soldierId}::uuid
      OR grader_id = ${soldierId}::uuid
    UNION SELECT candidate_id::text FROM sponsorship WHERE sponsor_id = ${soldierId}::uuid ORDER BY 1`
  return rows.map(({ id }) => id)
}

/** Marks sheets as being in no tally. */
export async function markUntallied(tx: Transaction, ids: readonly string[]): Promise<void> {
  await tx.$executeRaw`
    UPDATE sheet SET tallied_kind = NULL, tallied_unit_id = NULL WHERE id = ANY(${[...ids]}::uuid[])`
}

/** Takes away what is derived of a soldier about to be given up or worked out anew. */
export async function deleteDerived(tx: Transaction, soldierId: string): Promise<void> {
  for (const table of ['standing', 'retest_span', 'earned_award', 'soldier_period', 'person_tally']) {
    await tx.$executeRaw`DELETE FROM ${Prisma.raw(table)} WHERE soldier_id = ${soldierId}::uuid`
  }
}

/** Sheets that came in under the id given up while it led to the kept soldier go to the former with the rest. */
export async function claimNamed(tx: Transaction, keptId: string, awayId: string): Promise<void> {
  for (const [column, field] of [
    ['candidate_id', 'candidateId'],
    ['sponsor_id', 'sponsorId'],
    ['grader_id', 'graderId'],
  ] as const) {
    await tx.$executeRaw`
      UPDATE sheet s SET ${Prisma.raw(column)} = ${awayId}::uuid FROM sheet_revision r
      WHERE s.${Prisma.raw(column)} = ${keptId}::uuid AND r.sheet_id = s.id
        AND r.number = ${column === 'candidate_id' ? Prisma.sql`1` : Prisma.sql`s.revision`}
        AND r.body ->> ${field} = ${awayId}`
  }
}

/** Lets sheets stand as they stood, where they were neither amended nor decided about since. */
export async function standAsBefore(tx: Transaction, judged: readonly StoodBefore[], since: Date): Promise<void> {
  await tx.$executeRaw`
    UPDATE sheet s SET state = was.state, tolerated = ARRAY(SELECT jsonb_array_elements_text(was.tolerated))
    FROM jsonb_to_recordset(${JSON.stringify(judged)}::jsonb) AS was(id uuid, revision int, state text, tolerated jsonb)
    WHERE s.id = was.id AND s.revision = was.revision AND NOT EXISTS (
      SELECT FROM sheet_decision d WHERE d.sheet_id = s.id AND d.by_id IS NOT NULL AND d.at > ${since})`
}
