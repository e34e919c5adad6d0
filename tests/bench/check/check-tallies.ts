import type { Transaction } from '../../../server/db/client.ts'
import { readScores } from '../../../server/db/sheets.db.ts'
import { addToTallies, takeFromTallies } from '../../../server/db/tallies.db.ts'
import { type Contribution, countsOf } from '../../../server/domain/tallies/contribution.ts'

interface Tallied extends Omit<Contribution, 'measures' | 'faults'> {
  readonly id: string
}

/**
 * The tallies of one platoon's day are what the product makes of its sheets: taken out by the product's statements nothing
 * is left, put back they are as before. Months are the sums of their days, years of their months, a unit the sum of those
 * below it, and the whole record what its sheets say.
 */
export async function checkTallies(tx: Transaction): Promise<void> {
  const contributions = await onePlatoonDay(tx)
  const { unitId, day } = contributions[0]!
  const before = await countsAt(tx, unitId!, day)
  await takeFromTallies(tx, contributions)
  const [{ left }] = await tx.$queryRaw<[{ left: number }]>`
    SELECT COALESCE(sum(m.trials), 0)::int AS left FROM tally t JOIN measure_tally m ON m.tally_id = t.id
    WHERE t.unit_id = ${unitId}::uuid AND t.grain = 'day' AND t.start = ${day}::date`
  await addToTallies(tx, contributions)
  if (left !== 0 || (await countsAt(tx, unitId!, day)) !== before) {
    throw new Error(`The product tallies ${day} of unit ${unitId} otherwise.`)
  }
  await checkSums(tx)
}

async function onePlatoonDay(tx: Transaction): Promise<Contribution[]> {
  const rows = await tx.$queryRaw<Tallied[]>`
    WITH chosen AS (SELECT day, tallied_unit_id FROM sheet WHERE tallied_kind IS NOT NULL
      ORDER BY day, id OFFSET (SELECT count(*) / 2 FROM sheet WHERE tallied_kind IS NOT NULL) LIMIT 1)
    SELECT s.id::text, s.standard_id::text AS "standardId", s.tallied_unit_id::text AS "unitId", s.day::text, s.arm,
      s.tallied_kind AS kind, s.sponsor_id::text AS "sponsorId", s.outcome = 'GO' AS passed
    FROM sheet s JOIN chosen USING (day, tallied_unit_id) WHERE s.tallied_kind IS NOT NULL`
  const scores = await readScores(
    tx,
    rows.map(({ id }) => id),
  )
  return rows.map(({ id, ...row }) => ({ ...row, ...countsOf(scores.get(id)!.score, scores.get(id)!.majors) }))
}

/** All counts of the tallies that a day of a unit enters, as text. */
async function countsAt(tx: Transaction, unitId: string, day: string): Promise<string> {
  const [row] = await tx.$queryRaw<[{ counts: string }]>`
    WITH entered AS (
      SELECT t.id FROM tally t JOIN unit u ON t.unit_id = ANY(u.lineage)
      WHERE u.id = ${unitId}::uuid AND (t.grain, t.start) IN (('year', date_trunc('year', ${day}::date)::date),
        ('month', date_trunc('month', ${day}::date)::date), ('day', ${day}::date)))
    SELECT concat((SELECT string_agg(m::text, '' ORDER BY m::text) FROM measure_tally m JOIN entered ON id = tally_id),
      (SELECT string_agg(f::text, '' ORDER BY f::text) FROM fault_tally f JOIN entered ON id = tally_id),
      (SELECT string_agg(s::text, '' ORDER BY s::text) FROM sponsor_tally s JOIN entered ON id = tally_id)) AS counts`
  return row.counts
}

async function checkSums(tx: Transaction): Promise<void> {
  const [row] = await tx.$queryRaw<[{ wrongSums: number; wrongTrials: number }]>`
    WITH counted AS MATERIALIZED (
      SELECT t.unit_id, t.standard_id, t.arm, t.kind, t.grain, t.start, m.trials, m.no_go, COALESCE(f.faults, 0) AS faults
      FROM tally t
      LEFT JOIN (SELECT tally_id, sum(trials) AS trials, sum(no_go) AS no_go FROM measure_tally GROUP BY 1) m ON m.tally_id = t.id
      LEFT JOIN (SELECT tally_id, sum(count) AS faults FROM fault_tally GROUP BY 1) f ON f.tally_id = t.id),
    parts AS (
      SELECT unit_id, standard_id, arm, kind, whole.grain, date_trunc(whole.grain, start::timestamp)::date AS start,
        sum(trials) AS trials, sum(no_go) AS no_go, sum(faults) AS faults
      FROM counted JOIN (VALUES ('day', 'month'), ('month', 'year')) AS whole(part, grain) ON counted.grain = whole.part
      GROUP BY 1, 2, 3, 4, 5, 6
      UNION ALL
      SELECT unit.parent_id, standard_id, arm, kind, grain, start, sum(trials), sum(no_go), sum(faults)
      FROM counted JOIN unit ON unit.id = unit_id WHERE unit.parent_id IS NOT NULL GROUP BY 1, 2, 3, 4, 5, 6)
    SELECT (SELECT count(*)::int FROM (SELECT * FROM parts EXCEPT SELECT * FROM counted) wrong) AS "wrongSums",
      ((SELECT sum(trials) FROM counted JOIN unit ON unit.id = unit_id WHERE unit.parent_id IS NULL AND grain = 'year')
        - (SELECT sum(minors.trials + majors.judged) FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id
          CROSS JOIN LATERAL (SELECT COALESCE(sum(m.correct + m.incorrect), 0) AS trials
            FROM jsonb_to_recordset(r.score -> 'minors') AS m(correct int, incorrect int)) minors
          CROSS JOIN LATERAL (SELECT count(m.mark) AS judged FROM jsonb_to_recordset(r.body -> 'majors') AS m(mark text)) majors
          WHERE s.tallied_kind IS NOT NULL))::int AS "wrongTrials"`
  if (row.wrongSums !== 0) throw new Error(`${row.wrongSums} tallies are not the sums of their parts.`)
  if (row.wrongTrials !== 0) throw new Error(`The tallies hold ${row.wrongTrials} trials more than the sheets.`)
}
