import type { Transaction } from '../../db/client.ts'

/** A period of coaching, or of an appointment. */
export interface KnownPeriod {
  readonly id: string
  /** Candidate and sponsor, or soldier and standard. */
  readonly of: string
  readonly by: string
  readonly from: string
  readonly to: string | null
}

export async function sponsorshipsOf(tx: Transaction, candidates: readonly string[]): Promise<KnownPeriod[]> {
  return tx.$queryRaw<KnownPeriod[]>`
    SELECT id::text, candidate_id::text AS of, sponsor_id::text AS by, from_day::text AS "from", to_day::text AS "to"
    FROM sponsorship WHERE candidate_id = ANY(${[...candidates]}::uuid[])`
}

export async function appointmentsOf(tx: Transaction, soldiers: readonly string[]): Promise<KnownPeriod[]> {
  return tx.$queryRaw<KnownPeriod[]>`
    SELECT id::text, soldier_id::text AS of, standard AS by, from_day::text AS "from", to_day::text AS "to"
    FROM appointment WHERE soldier_id = ANY(${[...soldiers]}::uuid[])`
}

export async function insertSponsorships(tx: Transaction, periods: readonly KnownPeriod[]): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO sponsorship (id, candidate_id, sponsor_id, from_day, to_day)
    SELECT id, "of", "by", "from", "to" FROM jsonb_to_recordset(${JSON.stringify(periods)}::jsonb)
      AS x(id uuid, "of" uuid, "by" uuid, "from" date, "to" date)`
}

export async function insertAppointments(tx: Transaction, periods: readonly KnownPeriod[]): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO appointment (id, soldier_id, standard, from_day, to_day)
    SELECT id, "of", "by", "from", "to" FROM jsonb_to_recordset(${JSON.stringify(periods)}::jsonb)
      AS x(id uuid, "of" uuid, "by" text, "from" date, "to" date)`
}

export async function endSponsorships(tx: Transaction, periods: readonly KnownPeriod[]): Promise<void> {
  await tx.$executeRaw`
    UPDATE sponsorship s SET to_day = x."to" FROM jsonb_to_recordset(${JSON.stringify(periods)}::jsonb)
      AS x(id uuid, "to" date) WHERE s.id = x.id`
}

export async function endAppointments(tx: Transaction, periods: readonly KnownPeriod[]): Promise<void> {
  await tx.$executeRaw`
    UPDATE appointment a SET to_day = x."to" FROM jsonb_to_recordset(${JSON.stringify(periods)}::jsonb)
      AS x(id uuid, "to" date) WHERE a.id = x.id`
}

/** A carried-over award. */
export interface KnownAward {
  readonly soldierId: string
  readonly certificationId: string
  readonly awardedOn: string
  readonly validThrough: string
  readonly evidence: string
}

export async function carriedAwardsOf(tx: Transaction, soldiers: readonly string[]): Promise<KnownAward[]> {
  return tx.$queryRaw<KnownAward[]>`
    SELECT soldier_id::text AS "soldierId", certification_id::text AS "certificationId",
      awarded_on::text AS "awardedOn", valid_through::text AS "validThrough", evidence
    FROM carried_award WHERE soldier_id = ANY(${[...soldiers]}::uuid[])`
}

/** Carries awards over, in the order given. */
export async function insertCarriedAwards(tx: Transaction, awards: readonly KnownAward[]): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO carried_award (soldier_id, certification_id, awarded_on, valid_through, evidence)
    SELECT (e.value ->> 'soldierId')::uuid, (e.value ->> 'certificationId')::uuid, (e.value ->> 'awardedOn')::date,
      (e.value ->> 'validThrough')::date, e.value ->> 'evidence'
    FROM jsonb_array_elements(${JSON.stringify(awards)}::jsonb) WITH ORDINALITY AS e(value, n) ORDER BY n`
}

/** Ceremonies that begin at one of these instants, as far as telling whether they are the same goes. */
export async function ceremoniesAt(
  tx: Transaction,
  instants: readonly string[],
): Promise<{ title: string; unitId: string; startsAt: string; endsAt: string; place: string; posts: string[] }[]> {
  return tx.$queryRaw`
    SELECT c.title, c.unit_id::text AS "unitId", c.place,
      to_char(c.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "startsAt",
      to_char(c.ends_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') AS "endsAt",
      ARRAY(SELECT p.row || '/' || p.place || '/' || p.title || '/' || p.certification_id || '/' ||
        COALESCE(p.soldier_id::text, '') FROM post p WHERE p.ceremony_id = c.id ORDER BY p.row, p.place) AS posts
    FROM ceremony c WHERE c.starts_at = ANY(${[...instants]}::timestamptz[])`
}
