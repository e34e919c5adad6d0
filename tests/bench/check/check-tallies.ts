import { readDossier, type StoredSheet } from '../../../server/assessment/db/dossiers.db.ts'
import { settleTallies, untally } from '../../../server/assessment/services/settle-tallies.ts'
import { type Catalogue, readCatalogue } from '../../../server/db/catalogue.db.ts'
import type { Transaction } from '../../../server/db/client.ts'

/**
 * The tallies of one platoon's day are what the product makes of its sheets: taken out by the product nothing is left,
 * put back they are as before. Months are the sums of their days, years of their months, a unit the sum of those below it,
 * and the whole record what its sheets say.
 */
export async function checkTallies(tx: Transaction): Promise<void> {
  const catalogue = await readCatalogue(tx)
  const sheets = await onePlatoonDay(tx)
  const { talliedUnitId: unitId, day } = sheets[0]!
  const before = await talliesOf(tx, unitId!, day)
  for (const sheet of sheets) await untally(tx, catalogue, sheet)
  const [{ left }] = await tx.$queryRaw<[{ left: number }]>`
    SELECT count(*)::int AS left FROM tally WHERE unit_id = ${unitId}::uuid AND grain = 'day' AND start = ${day}::date
      AND (attempts <> 0 OR 0 <> ANY (measures || faults || readings))`
  for (const sheet of sheets) await putBack(tx, catalogue, sheet)
  if (left !== 0 || (await talliesOf(tx, unitId!, day)) !== before) {
    throw new Error(`The product tallies ${day} of unit ${unitId} otherwise.`)
  }
  await checkSums(tx)
}

async function onePlatoonDay(tx: Transaction): Promise<StoredSheet[]> {
  const rows = await tx.$queryRaw<{ id: string; candidateId: string }[]>`
    WITH chosen AS (SELECT day, tallied_unit_id FROM sheet WHERE tallied_kind IS NOT NULL
      ORDER BY day, id OFFSET (SELECT count(*) / 2 FROM sheet WHERE tallied_kind IS NOT NULL) LIMIT 1)
    SELECT s.id::text, s.candidate_id::text AS "candidateId" FROM sheet s JOIN chosen USING (day, tallied_unit_id)
    WHERE s.tallied_kind IS NOT NULL`
  const sheets: StoredSheet[] = []
  for (const { id, candidateId } of rows) {
    const dossier = await readDossier(tx, candidateId)
    sheets.push(dossier.sheets.find((sheet) => sheet.id === id)!)
  }
  return sheets
}

async function putBack(tx: Transaction, catalogue: Catalogue, sheet: StoredSheet): Promise<void> {
  const { talliedKind: kind, talliedUnitId: unitId } = sheet
  const before = { ...sheet, talliedKind: null, talliedUnitId: null }
  await settleTallies(tx, catalogue, [{ before, after: { kind, unitId } }])
}

/** All counts that a day of a unit enters, as text. */
async function talliesOf(tx: Transaction, unitId: string, day: string): Promise<string> {
  const [row] = await tx.$queryRaw<[{ counts: string }]>`
    WITH entered AS (
      SELECT t.* FROM tally t JOIN unit u ON t.unit_id = ANY(u.lineage)
      WHERE u.id = ${unitId}::uuid AND (t.grain, t.start) IN (('year', date_trunc('year', ${day}::date)::date),
        ('month', date_trunc('month', ${day}::date)::date), ('day', ${day}::date)))
    SELECT concat((SELECT string_agg(e::text, '' ORDER BY e.id) FROM entered e),
      (SELECT string_agg(p::text, '' ORDER BY p::text) FROM person_tally p JOIN entered e ON e.id = p.tally_id)) AS counts`
  return row.counts
}

async function checkSums(tx: Transaction): Promise<void> {
  const [row] = await tx.$queryRaw<[{ wrongSums: number; wrongTrials: number }]>`
    WITH counted AS MATERIALIZED (
      SELECT unit_id, standard_version_id, arm, kind, grain, start, attempts, passes,
        (SELECT sum(n) FROM unnest(measures) WITH ORDINALITY AS at(n, place) WHERE place % 4 = 3) AS trials,
        (SELECT sum(n) FROM unnest(measures || faults || readings) AS n) AS counts
      FROM tally),
    parts AS (
      SELECT unit_id, standard_version_id, arm, kind, whole.grain, date_trunc(whole.grain, start::timestamp)::date AS start,
        sum(attempts) AS attempts, sum(passes) AS passes, sum(trials) AS trials, sum(counts) AS counts
      FROM counted JOIN (VALUES ('day', 'month'), ('month', 'year')) AS whole(part, grain) ON counted.grain = whole.part
      GROUP BY 1, 2, 3, 4, 5, 6
      UNION ALL
      SELECT unit.parent_id, standard_version_id, arm, counted.kind, grain, start, sum(attempts), sum(passes), sum(trials), sum(counts)
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
