import { soldierInScope } from '../../access/db/scope.db.ts'
import type { LineBooking } from '../../contract/test-days/running-tests.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** SQL: whether somebody holds a certification that asks for a standard on a day. */
export const certifiedFor = (soldierId: Prisma.Sql, standardId: Prisma.Sql, day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  EXISTS (SELECT FROM standing st JOIN certification_standard cs ON cs.certification_id = st.certification_id
    WHERE st.soldier_id = ${soldierId} AND cs.standard_id = ${standardId} AND st.status = 'certified'
      AND st.from_day <= ${day} AND (st.through_day IS NULL OR st.through_day >= ${day})
      AND (st.valid_through IS NULL OR st.valid_through >= ${day}))`

/** SQL: id of the sponsor of record of a candidate on a day; of several the one named last. */
export const sponsorIdOn = (candidateId: Prisma.Sql, day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (SELECT x.sponsor_id FROM sponsorship x WHERE x.candidate_id = ${candidateId}
    AND daterange(x.from_day, x.to_day, '[]') @> ${day} ORDER BY x.from_day DESC, x.id LIMIT 1)`

/** Who is booked on a test day, in scope or with the scope's grader, by time. A second grader sees whom they grade. */
export async function listLineBookings(tx: Transaction, scope: Scope, testDayId: string): Promise<LineBooking[]> {
  const own =
    scope.graderId === null
      ? Prisma.sql`false`
      : Prisma.sql`${scope.graderId}::uuid IN (b.grader_id, b.second_grader_id)`
  const name = (alias: string) => Prisma.raw(`${alias}.family_name || ', ' || ${alias}.given_name`)
  return tx.$queryRaw<LineBooking[]>`
    SELECT b.id::text, b.candidate_id::text AS "candidateId", concat_ws(' ', q.grade, ${name('c')}) AS candidate,
      c.roster_number AS "rosterNumber", q.arms, s.code AS standard,
      to_char(b.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
      b.grader_id::text AS "graderId", ${name('g')} AS grader, b.second_grader_id::text AS "secondGraderId",
      ${name('g2')} AS "secondGrader", ${name('p')} AS sponsor,
      ${certifiedFor(Prisma.sql`p.id`, Prisma.sql`b.standard_id`, Prisma.sql`d.on_day`)} AS "sponsorCertified",
      b.state, b.state_reason AS "stateReason", b.check_in AS "checkIn"
    FROM booking b JOIN test_day d ON d.id = b.test_day_id JOIN soldier c ON c.id = b.candidate_id
    JOIN standard s ON s.id = b.standard_id LEFT JOIN soldier g ON g.id = b.grader_id
    LEFT JOIN soldier g2 ON g2.id = b.second_grader_id
    LEFT JOIN soldier p ON p.id = ${sponsorIdOn(Prisma.sql`b.candidate_id`, Prisma.sql`d.on_day`)}
    JOIN LATERAL (SELECT grade, arms FROM soldier_period WHERE soldier_id = c.id
      ORDER BY from_day > d.on_day, abs(from_day - d.on_day) LIMIT 1) q ON true
    WHERE b.test_day_id = ${testDayId}::uuid AND b.state <> 'cancelled'
      AND (${soldierInScope(scope, Prisma.sql`b.candidate_id`)} OR ${own})
    ORDER BY b.starts_at NULLS LAST, g.family_name, g.given_name, b.id LIMIT 1000`
}
