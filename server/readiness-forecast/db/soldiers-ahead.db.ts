import { readinessPairs } from '../../assessment/db/standings.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { History } from '../../domain/certification/types.ts'

/** A test that is booked, or that was taken where the question is about the past. */
export interface TestRow {
  /** Of the booking, or of the sheet. */
  readonly id: string
  readonly testDayId: string | null
  readonly graderId: string | null
  readonly standard: string
  readonly day: string
  /** Milliseconds since 1970; null: any time that day. */
  readonly at: number | null
}

/** Somebody required to be certified on a day, with all that happened until another day and the tests between. */
export interface SoldierRow {
  readonly soldierId: string
  /** On the day asked about, as the record says today. */
  readonly isCertified: boolean
  readonly history: History
  readonly tests: TestRow[]
  readonly absences: { from: string; through: string | null }[]
}

export interface AheadFilter {
  readonly unitId: string | undefined
  readonly certification: string
  readonly certificationId: string
  /** The day asked about. */
  readonly on: string
  /** The last day of which anything is known. */
  readonly asOf: string
}

export interface AheadRows {
  readonly required: number
  /** Of them, on the last day known. */
  readonly certifiedNow: number
  /** Certified then, and not on the day asked about if nothing more happens. */
  readonly lapsing: number
  /** Certified on the day asked about if nothing more happens, leaving out `soldiers`. */
  readonly settled: number
  readonly soldiers: SoldierRow[]
}

/**
 * Those required to hold a certification on a day to come: counts, and one by one those with tests booked until then or
 * an award that waits for a commander; or with
 * `all` everybody who is not certified then as well.
 */
export async function readSoldiersAhead(
  tx: Transaction,
  scope: Scope,
  filter: AheadFilter,
  { all }: { all: boolean },
): Promise<AheadRows> {
  const tests = Prisma.sql`
    SELECT b.candidate_id AS soldier_id, b.id, b.test_day_id, b.grader_id, b.standard_id, td.on_day AS day, b.starts_at AS at
    FROM booking b JOIN test_day td ON td.id = b.test_day_id
    WHERE b.state IN ('booked', 'checked in') AND td.called_off_at IS NULL
      AND td.on_day BETWEEN ${filter.asOf}::date AND ${filter.on}::date`
  const chosen = all ? Prisma.sql`OR req.status <> 'certified'` : Prisma.empty
  return readRows(tx, scope, filter, { tests, chosen, suspensions: Prisma.sql`x.lift_day` })
}

/**
 * The same as somebody could have asked on a day that is over: the people of the day asked about, the record up to the earlier day,
 * and for bookings the tests that were then taken or missed. One by one come all to whom something happened between.
 */
export async function readSoldiersThen(tx: Transaction, scope: Scope, filter: AheadFilter): Promise<AheadRows> {
  const [after, through] = [Prisma.sql`${filter.asOf}::date`, Prisma.sql`${filter.on}::date`]
  const tests = Prisma.sql`
    SELECT s.candidate_id AS soldier_id, s.id, s.test_day_id, s.grader_id, s.standard_id, s.day, s.finished_at AS at
    FROM sheet s WHERE s.state = 'counted' AND s.purpose = 'test' AND s.second_of IS NULL AND s.ending <> 'void'
      AND s.day > ${after} AND s.day <= ${through}
    UNION ALL
    SELECT b.candidate_id, b.id, b.test_day_id, b.grader_id, b.standard_id, td.on_day, b.starts_at
    FROM booking b JOIN test_day td ON td.id = b.test_day_id
    WHERE b.state IN ('no-show', 'excused', 'turned away') AND td.called_off_at IS NULL
      AND td.on_day > ${after} AND td.on_day <= ${through}`
  const happened = (table: string, day: string) => Prisma.sql`EXISTS (SELECT FROM ${Prisma.raw(table)} x
    WHERE x.soldier_id = req.soldier_id AND x.certification_id = req.certification_id
      AND x.${Prisma.raw(day)} > ${after} AND x.${Prisma.raw(day)} <= ${through})`
  return readRows(tx, scope, filter, {
    tests,
    chosen: Prisma.sql`OR ${happened('carried_award', 'awarded_on')} OR ${happened('withdrawal', 'on_day')}
      OR ${happened('suspension', 'from_day')} OR ${happened('suspension', 'lift_day')}
      OR ${happened('award_decision', 'on_day')} OR ${happened('award_extension', 'on_day')}`,
    // A lift that came later was not foreseen, nor was a suspension.
    suspensions: Prisma.sql`CASE WHEN x.lift_day <= ${after} THEN x.lift_day END`,
    suspendedBy: Prisma.sql`AND x.from_day <= ${after}`,
  })
}

interface Parts {
  /** The tests between the two days. */
  readonly tests: Prisma.Sql
  /** Beside who has a test, who comes one by one: a condition that begins with OR. */
  readonly chosen: Prisma.Sql
  /** The day a suspension `x` is lifted. */
  readonly suspensions: Prisma.Sql
  /** Which suspensions are known: a condition that begins with AND. */
  readonly suspendedBy?: Prisma.Sql
}

async function readRows(
  tx: Transaction,
  scope: Scope,
  { unitId, certification, certificationId, on, asOf }: AheadFilter,
  { tests, chosen, suspensions, suspendedBy = Prisma.empty }: Parts,
): Promise<AheadRows> {
  const id = Prisma.sql`${certificationId}::uuid`
  const known = Prisma.sql`${asOf}::date`
  const [row] = await tx.$queryRaw<[AheadRows]>`
    WITH ${readinessPairs(scope, Prisma.sql`${on}::date`, { unitId, certification }, { atDesk: true })},
    required AS MATERIALIZED (
      SELECT shown.soldier_id, shown.certification_id, shown.status,
        EXISTS (SELECT FROM standing x WHERE x.soldier_id = shown.soldier_id AND x.certification_id = ${id}
          AND x.status = 'certified' AND daterange(x.from_day, x.through_day, '[]') @> ${known}) AS now
      FROM shown WHERE shown.required),
    test AS MATERIALIZED (
      SELECT t.*, std.code AS standard FROM (${tests}) t JOIN standard std ON std.id = t.standard_id
      JOIN certification_standard cs ON cs.standard_id = t.standard_id AND cs.certification_id = ${id}
      WHERE t.soldier_id IN (SELECT soldier_id FROM required)),
    one AS MATERIALIZED (SELECT * FROM required req
      WHERE EXISTS (SELECT FROM test WHERE test.soldier_id = req.soldier_id)
        OR req.status = 'awaiting approval' ${chosen})
    SELECT (SELECT count(*)::int FROM required) AS required,
      (SELECT count(*)::int FROM required WHERE now) AS "certifiedNow",
      (SELECT count(*)::int FROM required WHERE now AND status <> 'certified') AS lapsing,
      (SELECT count(*)::int FROM required WHERE status = 'certified' AND soldier_id NOT IN (SELECT soldier_id FROM one))
        AS settled,
      (SELECT COALESCE(json_agg(json_build_object('soldierId', one.soldier_id, 'isCertified', one.status = 'certified',
          'history', json_build_object(
            'attempts', ${attempts(id, known)}, 'awards', ${awards(id, known)}, 'withdrawals', ${withdrawals(id, known)},
            'decisions', ${decisions(id, known)}, 'extensions', ${extensions(id, known)},
            'suspensions', (SELECT COALESCE(json_agg(json_build_object('from', x.from_day,
                'lift', ${suspensions})), '[]') FROM suspension x
              WHERE x.soldier_id = one.soldier_id AND x.certification_id = ${id} ${suspendedBy}), 'reviews', ${reviews(known)}),
          'tests', (SELECT COALESCE(json_agg(json_build_object('id', test.id, 'testDayId', test.test_day_id,
              'graderId', test.grader_id, 'standard', test.standard, 'day', test.day,
              'at', floor(extract(epoch FROM test.at) * 1000)) ORDER BY test.day, test.at NULLS LAST, test.id), '[]')
            FROM test WHERE test.soldier_id = one.soldier_id),
          'absences', (SELECT COALESCE(json_agg(json_build_object('from', a.from_day, 'through', a.through_day)), '[]')
            FROM absence a WHERE a.soldier_id = one.soldier_id)) ORDER BY one.soldier_id), '[]') FROM one) AS soldiers`
  return row
}

const attempts = (certificationId: Prisma.Sql, known: Prisma.Sql) => Prisma.sql`
  (SELECT COALESCE(json_agg(json_build_object('id', s.id, 'standard', std.code, 'version', v.version, 'arm', s.arm,
      'finishedAt', round(extract(epoch FROM s.finished_at) * 1000), 'day', s.day, 'outcome', s.outcome)), '[]')
    FROM sheet s JOIN standard std ON std.id = s.standard_id JOIN standard_version v ON v.id = s.standard_version_id
    JOIN certification_standard cs ON cs.standard_id = s.standard_id AND cs.certification_id = ${certificationId}
    WHERE s.candidate_id = one.soldier_id AND s.state = 'counted' AND s.purpose = 'test' AND s.second_of IS NULL
      AND s.ending <> 'void' AND s.day <= ${known})`

const awards = (certificationId: Prisma.Sql, known: Prisma.Sql) => Prisma.sql`
  (SELECT COALESCE(json_agg(json_build_object('id', a.id, 'awardedOn', a.awarded_on, 'validThrough', a.valid_through, 'entry', a.entry)),
      '[]') FROM carried_award a
    WHERE a.soldier_id = one.soldier_id AND a.certification_id = ${certificationId} AND a.awarded_on <= ${known})`

const withdrawals = (certificationId: Prisma.Sql, known: Prisma.Sql) => Prisma.sql`
  (SELECT COALESCE(json_agg(w.on_day), '[]') FROM withdrawal w
    WHERE w.soldier_id = one.soldier_id AND w.certification_id = ${certificationId} AND w.on_day <= ${known})`

const decisions = (certificationId: Prisma.Sql, known: Prisma.Sql) => Prisma.sql`
  (SELECT COALESCE(json_agg(json_build_object('sheetId', d.sheet_id, 'decision', d.decision, 'on', d.on_day)), '[]')
    FROM award_decision d WHERE d.soldier_id = one.soldier_id AND d.certification_id = ${certificationId}
      AND d.on_day <= ${known} AND d.taken_back_at IS NULL)`

const extensions = (certificationId: Prisma.Sql, known: Prisma.Sql) => Prisma.sql`
  (SELECT COALESCE(json_agg(json_build_object('award', COALESCE(x.sheet_id, x.carried_award_id), 'days', x.days)), '[]')
    FROM award_extension x WHERE x.soldier_id = one.soldier_id AND x.certification_id = ${certificationId}
      AND x.on_day <= ${known} AND x.taken_back_at IS NULL)`

const reviews = (known: Prisma.Sql) => Prisma.sql`
  (SELECT COALESCE(json_agg(json_build_object('standard', r.standard, 'on', r.on_day)), '[]') FROM review r
    WHERE r.soldier_id = one.soldier_id AND r.on_day <= ${known})`
