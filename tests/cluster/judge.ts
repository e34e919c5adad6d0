import { isDeepStrictEqual } from 'node:util'
import pg from 'pg'
import { countAnew } from '../../server/assessment/services/recount/count-anew.ts'
import { closeDatabase, openDatabase } from '../../server/db/client.ts'
import { checkRecord } from '../../server/record/services/read-record.ts'
import { TALLIED_FIGURES, UNCOUNT } from '../support/tallied-figures.ts'
import type { Seen } from './seen.ts'

/** What is wrong with what the cluster holds in the end, in words. Counts every figure of it anew. */
export async function judgeRecord(url: string, seen: Seen): Promise<string[]> {
  const database = new pg.Client({ connectionString: url })
  await database.connect()
  const db = openDatabase(url)
  try {
    return [
      ...(await judgeSheets(database, seen)),
      ...(await checkRecord(db)).problems.map(({ detail }) => detail),
      ...(await judgeFigures(database, () => countAnew(db, () => {}))),
    ]
  } finally {
    await closeDatabase(db)
    await database.end()
  }
}

/** Each acknowledged sheet is there and was stored once, which the record of changes tells; and nothing else is. */
async function judgeSheets(database: pg.Client, { acknowledged }: Seen): Promise<string[]> {
  const { rows } = await database.query<{ id: string; times: number }>(
    `SELECT id::text, (SELECT count(*)::int FROM record_entry
      WHERE action = 'sheet.submitted' AND subject_kind = 'sheet' AND subject_id = sheet.id::text) AS times FROM sheet`,
  )
  const times = new Map(rows.map((row) => [row.id, row.times]))
  const ids = [...acknowledged.values()].flatMap((some) => [...some])
  const lost = ids.filter((id) => !times.has(id))
  const notOnce = ids.filter((id) => times.has(id) && times.get(id) !== 1)
  const faults = []
  if (lost.length > 0) faults.push(`${lost.length} of ${ids.length} acknowledged sheets are lost`)
  if (notOnce.length > 0) faults.push(`${notOnce.length} sheets are not once on record as stored`)
  if (rows.length > ids.length) faults.push(`${rows.length - ids.length} sheets are there that nobody was told of`)
  return faults
}

async function judgeFigures(database: pg.Client, count: () => Promise<void>): Promise<string[]> {
  const figures = async () => (await database.query<{ figure: string }>(TALLIED_FIGURES)).rows
  const before = await figures()
  for (const statement of UNCOUNT) await database.query(statement)
  await count()
  if (before.length === 0) return ['Nothing was tallied']
  return isDeepStrictEqual(await figures(), before) ? [] : ['The tallies are not those of a recount']
}
