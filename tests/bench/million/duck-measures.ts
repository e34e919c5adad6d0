import fs from 'node:fs'
import path from 'node:path'
import { DuckDBInstance } from '@duckdb/node-api'
import pg from 'pg'
import { quantile } from '../measure/summary.ts'

export interface DuckTimes {
  readonly rows: number
  /** Seconds to bring the rows there. */
  readonly loading: number
  /** Milliseconds, the median. */
  readonly everything: number
  readonly battalion: number
  /** Of each measure, in ascending order of both: how many were tested, and of these NO-GO. */
  readonly counts: readonly (readonly [tested: number, noGo: number])[]
}

const TIMES = 7

/**
 * Counts failing measures in DuckDB, in its own column store, over a row for every measure of every attempt that counts:
 * everything, and one unit with all below it.
 * In: the database; its superuser's address on the same server; a folder that PostgreSQL may write into.
 */
export async function timeDuck(adminUrl: string, database: string, folder: string, unitId: string): Promise<DuckTimes> {
  const file = path.join(folder, 'measures.csv')
  const start = performance.now()
  await writeMeasures(adminUrl, database, file)
  const duck = await (await DuckDBInstance.create(path.join(folder, 'measures.duckdb'))).connect()
  await duck.run(`CREATE TABLE result AS SELECT * FROM read_csv('${file}', header = false, columns = {
    'units': 'VARCHAR', 'place': 'UTINYINT', 'mark': 'VARCHAR'})`)
  fs.rmSync(file)
  await duck.run(`CREATE TABLE below AS SELECT DISTINCT units FROM result WHERE contains(units, '${unitId}')`)
  const loading = (performance.now() - start) / 1000
  const count = (where: string) => `SELECT count(*) FILTER (mark <> '-')::INT AS tested,
    count(*) FILTER (mark = 'N')::INT AS no_go FROM result ${where} GROUP BY place ORDER BY 1, 2`
  const everything = await timed(() => duck.runAndReadAll(count('')))
  const battalion = await timed(() => duck.runAndReadAll(count('WHERE units IN (FROM below)')))
  const rows = (await duck.runAndReadAll('SELECT count(*)::INT FROM result')).getRows()[0]![0]
  const counts = everything.last.getRows().map(([tested, noGo]): [number, number] => [Number(tested), Number(noGo)])
  duck.closeSync()
  return { rows: Number(rows), loading, everything: everything.median, battalion: battalion.median, counts }
}

async function timed<Result>(work: () => Promise<Result>): Promise<{ median: number; last: Result }> {
  const times: number[] = []
  let last = await work()
  for (let n = 0; n < TIMES; n++) {
    const start = performance.now()
    last = await work()
    times.push(performance.now() - start)
  }
  return {
    median: quantile(
      times.sort((a, b) => a - b),
      0.5,
    ),
    last,
  }
}

async function writeMeasures(adminUrl: string, database: string, file: string): Promise<void> {
  const url = new URL(adminUrl)
  url.pathname = `/${database}`
  const client = new pg.Client({ connectionString: url.href })
  await client.connect()
  try {
    await client.query(`COPY (SELECT array_to_string(u.lineage, ' '), each.place, each.mark
      FROM sheet s LEFT JOIN unit u ON u.id = s.tallied_unit_id
      CROSS JOIN LATERAL unnest(string_to_array(s.marks, NULL)) WITH ORDINALITY AS each(mark, place)
      WHERE s.tallied_kind IS NOT NULL) TO '${file}' (FORMAT csv)`)
  } finally {
    await client.end()
  }
}
