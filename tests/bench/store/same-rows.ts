import pg from 'pg'
import { KEPT_NOT_COUNTED } from '../../support/kept-not-counted.ts'
import { KEPT_READINESS } from '../../support/kept-readiness.ts'

/** Everything that storing a sheet writes, but for the moments it was written at; `$1`: from this day on. */
const QUERIES = {
  sheet: `SELECT to_jsonb(s) - '{received_at,revised_at}'::text[] AS row FROM sheet s WHERE day >= $1`,
  sheet_revision: `SELECT to_jsonb(r) - 'at' AS row FROM sheet_revision r JOIN sheet s ON s.id = r.sheet_id WHERE s.day >= $1`,
  sheet_decision: `SELECT to_jsonb(d) - '{id,at}'::text[] AS row FROM sheet_decision d WHERE at >= $1::date`,
  standing: 'SELECT to_jsonb(s) AS row FROM standing s WHERE through_day IS NULL OR through_day >= $1',
  retest_span: 'SELECT to_jsonb(r) AS row FROM retest_span r WHERE through_day IS NULL OR through_day >= $1',
  earned_award: 'SELECT to_jsonb(a) AS row FROM earned_award a WHERE awarded_on >= $1',
  tally: `SELECT to_jsonb(t) - 'id' AS row FROM tally t WHERE start >= date_trunc('year', $1::date)`,
  person_tally: `SELECT jsonb_build_array(t.unit_id, t.standard_version_id, t.grain, t.start, t.arm, t.kind,
    to_jsonb(p) - 'tally_id') AS row FROM tally t JOIN person_tally p ON p.tally_id = t.id
    WHERE t.start >= date_trunc('year', $1::date)`,
  readiness: `SELECT to_jsonb(r) AS row FROM (${KEPT_READINESS}) r`,
  not_counted: `SELECT to_jsonb(n) AS row FROM (${KEPT_NOT_COUNTED}) n`,
  record_entry: `SELECT to_jsonb(e) - '{seq,at,previous_hash,hash,who_salt,what_salt}'::text[] AS row FROM record_entry e WHERE action LIKE 'sheet.%'`,
} as const

/** The tables in which two databases hold other rows from a day on; none where both hold the same. */
export async function differingTables(one: string, other: string, fromDay: string): Promise<string[]> {
  const [first, second] = [await digests(one, fromDay), await digests(other, fromDay)]
  return Object.keys(QUERIES).filter((table) => first.get(table) !== second.get(table))
}

async function digests(url: string, fromDay: string): Promise<Map<string, string>> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  try {
    const found = new Map<string, string>()
    for (const [table, query] of Object.entries(QUERIES)) {
      const digest = `SELECT count(*) || ' ' || md5(string_agg(row::text, '' ORDER BY row::text)) AS digest FROM (${query}) rows`
      const { rows } = await client.query(digest, query.includes('$1') ? [fromDay] : [])
      found.set(table, rows[0].digest)
    }
    return found
  } finally {
    await client.end()
  }
}
