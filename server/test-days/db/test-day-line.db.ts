import { sheetInScope, sheetNotBlinded, soldierInScope } from '../../access/db/scope.db.ts'
import type { ClosedTest, RunningTest, RunningTestBody } from '../../contract/test-days/running-tests.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

const UTC = Prisma.sql`'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'`

/** What a device has not said anything about for so long has ended without word, or its phone is dead. */
const HEARD_WITHIN = Prisma.sql`interval '4 hours'`

/** Stores how a running test stands now; false where its sheet is stored already, which is then what counts. */
export async function storeRunningTest(
  tx: Transaction,
  id: string,
  standardId: string,
  test: RunningTestBody,
  at: Date,
): Promise<boolean> {
  const stored = await tx.$executeRaw`
    INSERT INTO running_test (id, test_day_id, candidate_id, standard_id, grader_id, second_of, started_at, state, calls,
      calls_done, go, no_go, heard_at)
    SELECT ${id}::uuid, ${test.testDayId}::uuid, ${test.candidateId}::uuid, ${standardId}::uuid, ${test.graderId}::uuid,
      ${test.secondOf}::uuid, ${test.startedAt}::timestamptz, ${test.state}, ${test.calls}::int, ${test.callsDone}::int,
      ${test.go}::int, ${test.noGo}::int, ${at}
    WHERE NOT EXISTS (SELECT FROM sheet WHERE id = ${id}::uuid)
    ON CONFLICT (id) DO UPDATE SET state = EXCLUDED.state, calls = EXCLUDED.calls, calls_done = EXCLUDED.calls_done,
      go = EXCLUDED.go, no_go = EXCLUDED.no_go, second_of = EXCLUDED.second_of, heard_at = EXCLUDED.heard_at
    WHERE running_test.grader_id = EXCLUDED.grader_id`
  return stored > 0
}

/** Takes a running test off the line. `graderId` null: whoever runs it. */
export async function removeRunningTest(tx: Transaction, id: string, graderId: string | null): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM running_test WHERE id = ${id}::uuid AND (${graderId}::uuid IS NULL OR grader_id = ${graderId}::uuid)`
}

const PEOPLE = Prisma.sql`c.family_name || ', ' || c.given_name AS candidate, g.family_name || ', ' || g.given_name AS grader,
  st.code AS standard`

/** Tests in scope that run on a test day, in order of their start. */
export async function listRunningTests(
  tx: Transaction,
  scope: Scope,
  testDayId: string,
  now: Date,
): Promise<RunningTest[]> {
  const mayCount = scope.graderId === null ? Prisma.sql`true` : Prisma.sql`r.grader_id = ${scope.graderId}::uuid`
  const own =
    scope.graderId === null
      ? Prisma.sql`false`
      : Prisma.sql`(r.grader_id = ${scope.graderId}::uuid OR EXISTS (SELECT FROM booking b
          WHERE b.test_day_id = r.test_day_id AND b.candidate_id = r.candidate_id AND b.standard_id = r.standard_id
            AND ${scope.graderId}::uuid IN (b.grader_id, b.second_grader_id)))`
  return tx.$queryRaw<RunningTest[]>`
    SELECT r.id::text AS "sheetId", r.candidate_id::text AS "candidateId", r.grader_id::text AS "graderId",
      r.second_of::text AS "secondOf", to_char(r.started_at AT TIME ZONE 'UTC', ${UTC}) AS "startedAt", r.state, r.calls,
      r.calls_done AS "callsDone", CASE WHEN ${mayCount} THEN r.go END AS go, CASE WHEN ${mayCount} THEN r.no_go END AS "noGo",
      to_char(r.heard_at AT TIME ZONE 'UTC', ${UTC}) AS "heardAt", ${PEOPLE}
    FROM running_test r JOIN soldier c ON c.id = r.candidate_id JOIN soldier g ON g.id = r.grader_id
    JOIN standard st ON st.id = r.standard_id
    WHERE r.test_day_id = ${testDayId}::uuid AND r.heard_at > ${now}::timestamptz - ${HEARD_WITHIN}
      AND (${soldierInScope(scope, Prisma.sql`r.candidate_id`)} OR ${own})
    ORDER BY r.started_at, r.id`
}

/** Sheets in scope of a test day, latest first. */
export async function listClosedTests(tx: Transaction, scope: Scope, testDayId: string): Promise<ClosedTest[]> {
  return tx.$queryRaw<ClosedTest[]>`
    SELECT s.id::text AS "sheetId", s.candidate_id::text AS "candidateId", s.grader_id::text AS "graderId",
      s.second_of::text AS "secondOf", to_char(s.finished_at AT TIME ZONE 'UTC', ${UTC}) AS "finishedAt", s.outcome, s.state,
      ${PEOPLE}
    FROM sheet s JOIN soldier c ON c.id = s.candidate_id JOIN soldier g ON g.id = s.grader_id
    JOIN standard st ON st.id = s.standard_id
    WHERE s.test_day_id = ${testDayId}::uuid AND s.purpose = 'test'
      AND ${sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)} AND ${sheetNotBlinded(scope, 's')}
    ORDER BY s.finished_at DESC, s.id DESC LIMIT 500`
}
