import type { Identified, IdentifyBody, ListedBooking, ListedCandidate } from '../../contract/test-days/day-list.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { gradedBy } from './bookings/walk-ins.db.ts'
import { certifiedFor, sponsorIdOn } from './line-bookings.db.ts'

/** The sponsor of record on a day, as JSON: id and name; null without one. */
const sponsorOn = (candidateId: Prisma.Sql, day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (SELECT json_build_object('id', p.id, 'name', concat_ws(' ', (SELECT grade FROM soldier_period
      WHERE soldier_id = p.id ORDER BY from_day > ${day}, abs(from_day - ${day}) LIMIT 1), p.family_name) || ', ' || p.given_name)
    FROM sponsorship x JOIN soldier p ON p.id = x.sponsor_id
    WHERE x.candidate_id = ${candidateId} AND daterange(x.from_day, x.to_day, '[]') @> ${day}
    ORDER BY x.from_day DESC, x.id LIMIT 1)`

/** A candidate as JSON, with grade and arms of a day. */
const candidateOn = (soldierId: Prisma.Sql, day: Prisma.Sql): Prisma.Sql => Prisma.sql`
  (SELECT json_build_object('id', s.id, 'rosterNumber', s.roster_number, 'grade', q.grade, 'familyName', s.family_name,
      'givenName', s.given_name, 'arms', q.arms, 'sponsor', ${sponsorOn(Prisma.sql`s.id`, day)})
    FROM soldier s JOIN LATERAL (SELECT grade, arms FROM soldier_period WHERE soldier_id = s.id
      ORDER BY from_day > ${day}, abs(from_day - ${day}) LIMIT 1) q ON true
    WHERE s.id = ${soldierId})`

/** SQL: the first grader's sheet of a booking `b`, stored or under way; null while none is known. */
const FIRST_SHEET = Prisma.sql`COALESCE(b.sheet_id, (SELECT r.id FROM running_test r WHERE r.test_day_id = b.test_day_id
  AND r.candidate_id = b.candidate_id AND r.standard_id = b.standard_id AND r.grader_id = b.grader_id
  AND r.second_of IS NULL ORDER BY r.started_at DESC, r.id LIMIT 1))::text`

/** What is booked with the grader of a scope from today through a last day, in order of day and time. */
export async function listDayBookings(
  tx: Transaction,
  scope: Scope,
  lastDay: string,
  defaultZone: string,
): Promise<ListedBooking[]> {
  if (scope.graderId === null) return []
  return tx.$queryRaw<ListedBooking[]>`
    SELECT b.id::text, d.id::text AS "testDayId", d.on_day::text AS "on", d.place, s.code AS standard, b.state,
      to_char(b.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
      COALESCE((SELECT above.time_zone FROM unit u CROSS JOIN LATERAL unnest(u.lineage) WITH ORDINALITY AS line(id, height)
        JOIN unit above ON above.id = line.id WHERE u.id = d.unit_id AND above.time_zone IS NOT NULL
        ORDER BY height LIMIT 1), ${defaultZone}) AS zone,
      b.check_in AS "checkIn", b.grader_id IS DISTINCT FROM ${scope.graderId}::uuid AS "asSecond",
      ${certifiedFor(
        sponsorIdOn(Prisma.sql`b.candidate_id`, Prisma.sql`d.on_day`),
        Prisma.sql`b.standard_id`,
        Prisma.sql`d.on_day`,
      )} AS "sponsorCertified",
      CASE WHEN b.second_grader_id = ${scope.graderId}::uuid THEN ${FIRST_SHEET} END AS "firstSheetId",
      ${candidateOn(Prisma.sql`b.candidate_id`, Prisma.sql`d.on_day`)} AS candidate
    FROM booking b JOIN test_day d ON d.id = b.test_day_id JOIN standard s ON s.id = b.standard_id
    WHERE ${scope.graderId}::uuid IN (b.grader_id, b.second_grader_id) AND b.state <> 'cancelled'
      AND d.called_off_at IS NULL AND d.on_day BETWEEN ${scope.today}::date AND ${lastDay}::date
    ORDER BY d.on_day, b.starts_at NULLS LAST, b.id`
}

/** The test days on which the grader of a scope grades, from today through a last day. */
export async function listGradedDays(
  tx: Transaction,
  scope: Scope,
  lastDay: string,
): Promise<{ id: string; on: string; place: string }[]> {
  if (scope.graderId === null) return []
  return tx.$queryRaw<{ id: string; on: string; place: string }[]>`
    SELECT d.id::text, d.on_day::text AS "on", d.place FROM test_day d
    WHERE d.on_day BETWEEN ${scope.today}::date AND ${lastDay}::date AND d.called_off_at IS NULL
      AND ${gradedBy(scope.graderId, Prisma.sql`d.id`)}
    ORDER BY d.on_day, d.id`
}

/** The present candidates of the sponsor of a scope, by name. */
export async function listCoached(tx: Transaction, scope: Scope): Promise<ListedCandidate[]> {
  if (scope.sponsorId === null) return []
  const today = Prisma.sql`${scope.today}::date`
  const rows = await tx.$queryRaw<{ candidate: ListedCandidate }[]>`
    SELECT ${candidateOn(Prisma.sql`c.id`, today)} AS candidate FROM soldier c
    WHERE c.id IN (SELECT candidate_id FROM sponsorship WHERE sponsor_id = ${scope.sponsorId}::uuid
      AND daterange(from_day, to_day, '[]') @> ${today})
      AND EXISTS (SELECT FROM soldier_period WHERE soldier_id = c.id AND daterange(from_day, through_day, '[]') @> ${today})
    ORDER BY c.family_name, c.given_name, c.id`
  return rows.map(({ candidate }) => candidate)
}

/** SQL of a text without what people write now so, now so: case, blanks, hyphens. */
const plain = (text: Prisma.Sql): Prisma.Sql => Prisma.sql`lower(regexp_replace(${text}, '[[:space:]-]', '', 'g'))`

/**
 * The soldier who has both this roster number and this family name, whatever the case, blanks and hyphens. Null also where
 * more than one has and none exactly so.
 */
export async function findByNumberAndName(
  tx: Transaction,
  { rosterNumber, familyName, on }: IdentifyBody,
): Promise<Identified | null> {
  const found = await tx.$queryRaw<(Identified & { exact: boolean })[]>`
    SELECT s.id::text, ${sponsorOn(Prisma.sql`s.id`, Prisma.sql`${on}::date`)} AS sponsor,
      s.roster_number = ${rosterNumber.trim()} AS exact
    FROM soldier s
    WHERE ${plain(Prisma.sql`s.roster_number`)} = ${plain(Prisma.sql`${rosterNumber}::text`)}
      AND ${plain(Prisma.sql`s.family_name`)} = ${plain(Prisma.sql`${familyName}::text`)}`
  const one = found.find(({ exact }) => exact) ?? (found.length === 1 ? found[0] : undefined)
  return one ? { id: one.id, sponsor: one.sponsor } : null
}
