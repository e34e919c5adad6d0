import type pg from 'pg'
import { insertRows } from './insert-rows.ts'
import type { TallyBook } from './tally-book.ts'

const TALLIES_A_BATCH = 1000

const TALLY = {
  id: 'bigint',
  unit_id: 'uuid',
  standard_id: 'uuid',
  grain: 'text',
  start: 'date',
  arm: 'text',
  kind: 'text',
} as const
const MEASURE = {
  tally_id: 'bigint',
  measure: 'text',
  major: 'boolean',
  tested: 'int',
  no_go: 'int',
  trials: 'int',
  incorrect: 'int',
} as const
const FAULT = { tally_id: 'bigint', measure: 'text', major: 'boolean', fault: 'text', count: 'int' } as const
const SPONSOR = { tally_id: 'bigint', sponsor_id: 'uuid', attempts: 'int', passes: 'int' } as const

/** Stores all tallies of a book. */
export async function insertTallies(client: pg.Client, book: TallyBook): Promise<void> {
  const tallies = [...book.tallies()]
  for (let first = 0; first < tallies.length; first += TALLIES_A_BATCH) {
    const batch = tallies.slice(first, first + TALLIES_A_BATCH)
    const numbered = <Row extends object>(rowsOf: (tally: (typeof batch)[number]) => Iterable<Row>) =>
      batch.flatMap((tally) => [...rowsOf(tally)].map((row) => ({ tally_id: tally.row.id, ...row })))
    await insertRows(
      client,
      'tally',
      TALLY,
      batch.map(({ row }) => row),
    )
    await insertRows(
      client,
      'measure_tally',
      MEASURE,
      numbered(({ measures }) => measures.values()),
    )
    await insertRows(
      client,
      'fault_tally',
      FAULT,
      numbered(({ faults }) => faults.values()),
    )
    await insertRows(
      client,
      'sponsor_tally',
      SPONSOR,
      numbered(({ sponsors }) => sponsors.values()),
    )
  }
  await client.query(`SELECT setval(pg_get_serial_sequence('tally', 'id'), $1)`, [tallies.length + 1])
}
