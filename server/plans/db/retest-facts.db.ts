import { subtree } from '../../access/db/scope.db.ts'
import type { Transaction } from '../../db/client.ts'

export interface PlanSlotRow {
  readonly slotId: string
  readonly testDayId: string
  readonly day: string
  readonly place: string
  readonly graderId: string | null
  readonly startsAt: Date
  readonly endsAt: Date
  /** The booking in it; null: it is free. */
  readonly bookingId: string | null
  readonly candidateId: string | null
  readonly standard: string | null
  /** Still to be tested, of a soldier of the unit, with no second grader: it may move. */
  readonly mayMove: boolean
}

/**
 * Slots of a period that have not begun, of test days that take place, of the unit, those above and those below it; each
 * with its booking. In order of time.
 */
export async function listPlanSlots(
  tx: Transaction,
  { unitId, from, to, now, today }: { unitId: string; from: string; to: string; now: Date; today: string },
): Promise<PlanSlotRow[]> {
  return tx.$queryRaw<PlanSlotRow[]>`
    SELECT s.id::text AS "slotId", d.id::text AS "testDayId", d.on_day::text AS day, d.place,
      s.grader_id::text AS "graderId", s.starts_at AS "startsAt", s.ends_at AS "endsAt", b.id::text AS "bookingId",
      b.candidate_id::text AS "candidateId", std.code AS standard,
      COALESCE(b.state = 'booked' AND b.second_grader_id IS NULL AND EXISTS (SELECT FROM soldier_period sp
        WHERE sp.soldier_id = b.candidate_id AND daterange(sp.from_day, sp.through_day, '[]') @> ${today}::date
          AND sp.unit_id = ANY(${subtree(unitId)})), false) AS "mayMove"
    FROM slot s JOIN test_day d ON d.id = s.test_day_id JOIN unit u ON u.id = d.unit_id
    LEFT JOIN booking b ON b.slot_id = s.id AND b.state <> 'cancelled' LEFT JOIN standard std ON std.id = b.standard_id
    WHERE d.on_day BETWEEN ${from}::date AND ${to}::date AND d.called_off_at IS NULL AND s.starts_at > ${now}
      AND (u.lineage @> ARRAY[${unitId}::uuid] OR (SELECT lineage FROM unit WHERE id = ${unitId}::uuid) @> ARRAY[u.id])
    ORDER BY s.starts_at, s.id`
}

export interface CoachingRow {
  readonly sponsorId: string
  readonly bookingId: string
  readonly from: number
  readonly to: number
}

/** When sponsors are with a candidate of theirs who is tested, by what is booked in a period. Instants in milliseconds. */
export async function listCoaching(
  tx: Transaction,
  { from, to }: { from: string; to: string },
): Promise<CoachingRow[]> {
  return tx.$queryRaw<CoachingRow[]>`
    SELECT sponsor.id::text AS "sponsorId", b.id::text AS "bookingId",
      round(extract(epoch FROM s.starts_at) * 1000)::float8 AS "from",
      round(extract(epoch FROM s.ends_at) * 1000)::float8 AS "to"
    FROM booking b JOIN slot s ON s.id = b.slot_id JOIN test_day d ON d.id = b.test_day_id
    CROSS JOIN LATERAL (SELECT sp.sponsor_id AS id FROM sponsorship sp WHERE sp.candidate_id = b.candidate_id
      AND daterange(sp.from_day, sp.to_day, '[]') @> d.on_day ORDER BY sp.from_day DESC LIMIT 1) sponsor
    WHERE b.state IN ('booked', 'checked in') AND d.on_day BETWEEN ${from}::date AND ${to}::date`
}

export interface MissingTestRow {
  readonly soldierId: string
  readonly standard: string
  /** The last day of the award that lapses; null: there was none. */
  readonly validThrough: string | null
}

/**
 * Tests of standards that somebody of a unit must hold a certification for and has no open retest and no kept GO in,
 * nor an award that waits for a commander.
 * Renewals: of awards that lapse by a day, or have lapsed; first tests: where there was no award, of who has a sponsor.
 * `required` are the pairs of soldier and certification that count.
 */
export async function listMissingTests(
  tx: Transaction,
  required: readonly { readonly soldierId: string; readonly certification: string }[],
  { today, to, renewals, firstTests }: { today: string; to: string; renewals: boolean; firstTests: boolean },
): Promise<MissingTestRow[]> {
  return tx.$queryRaw<MissingTestRow[]>`
    SELECT q."soldierId"::text, std.code AS standard, min(st.valid_through)::text AS "validThrough"
    FROM json_to_recordset(${JSON.stringify(required)}::json) AS q("soldierId" uuid, certification text)
    JOIN certification c ON c.code = q.certification JOIN certification_standard cs ON cs.certification_id = c.id
    JOIN standard std ON std.id = cs.standard_id
    LEFT JOIN LATERAL (SELECT * FROM standing x WHERE x.soldier_id = q."soldierId" AND x.certification_id = c.id
      AND x.from_day <= ${today}::date AND (x.through_day IS NULL OR x.through_day >= ${today}::date)
      ORDER BY x.from_day DESC LIMIT 1) st ON true
    WHERE NOT COALESCE(st.suspended, false) AND NOT std.code = ANY(COALESCE(st.retest_open, '{}'))
      AND NOT EXISTS (SELECT FROM jsonb_array_elements(COALESCE(st.toward, '[]')) go WHERE go ->> 'standard' = std.code)
      AND NOT EXISTS (SELECT FROM earned_award waiting WHERE waiting.soldier_id = q."soldierId"
        AND waiting.certification_id = c.id AND waiting.in_force_from IS NULL
        AND (st.awarded_on IS NULL OR waiting.awarded_on > st.awarded_on))
      AND (${renewals} AND st.valid_through IS NOT NULL AND st.valid_through <= ${to}::date
        OR ${firstTests} AND st.valid_through IS NULL AND EXISTS (SELECT FROM sponsorship sp
          WHERE sp.candidate_id = q."soldierId" AND daterange(sp.from_day, sp.to_day, '[]') @> ${today}::date))
    GROUP BY q."soldierId", std.code ORDER BY q."soldierId", std.code`
}

export interface PersonRow {
  readonly id: string
  readonly name: string
  readonly unitName: string
}

/** Names, with the unit of a day, of these people. */
export async function readPeople(
  tx: Transaction,
  ids: readonly string[],
  day: string,
): Promise<Map<string, PersonRow>> {
  const rows = await tx.$queryRaw<PersonRow[]>`
    SELECT s.id::text, s.family_name || ', ' || s.given_name AS name, COALESCE(u.name, '') AS "unitName"
    FROM soldier s LEFT JOIN soldier_period p ON p.soldier_id = s.id
      AND daterange(p.from_day, p.through_day, '[]') @> ${day}::date
    LEFT JOIN unit u ON u.id = p.unit_id WHERE s.id = ANY(${[...ids]}::uuid[])`
  return new Map(rows.map((row) => [row.id, row]))
}

/** Places of test days. */
export async function readTestDayPlaces(tx: Transaction, ids: readonly string[]): Promise<Map<string, string>> {
  const rows = await tx.$queryRaw<{ id: string; place: string }[]>`
    SELECT id::text, place FROM test_day WHERE id = ANY(${[...ids]}::uuid[])`
  return new Map(rows.map(({ id, place }) => [id, place]))
}

/** The sponsorships of candidates, by candidate. */
export async function listSponsorships(
  tx: Transaction,
  candidateIds: readonly string[],
): Promise<Map<string, { sponsorId: string; from: string; to: string | null }[]>> {
  const rows = await tx.$queryRaw<{ candidateId: string; sponsorId: string; from: string; to: string | null }[]>`
    SELECT candidate_id::text AS "candidateId", sponsor_id::text AS "sponsorId", from_day::text AS "from", to_day::text AS "to"
    FROM sponsorship WHERE candidate_id = ANY(${[...candidateIds]}::uuid[])`
  const lists = new Map<string, { sponsorId: string; from: string; to: string | null }[]>()
  for (const { candidateId, ...row } of rows) lists.set(candidateId, [...(lists.get(candidateId) ?? []), row])
  return lists
}

/** The unit at the top of the tree; null where there is none. */
export async function readTopUnit(tx: Transaction): Promise<string | null> {
  const rows = await tx.$queryRaw<
    { id: string }[]
  >`SELECT id::text FROM unit WHERE parent_id IS NULL ORDER BY id LIMIT 1`
  return rows[0]?.id ?? null
}
