import type { TestApp } from './build-test-app.ts'
import { KEPT_NOT_COUNTED } from './kept-not-counted.ts'
import { KEPT_READINESS } from './kept-readiness.ts'

/** What only ever grows, by what happened: the record, merges, decisions that sheets counted by themselves. */
const GROWS = ['record_entry', 'record_head', 'soldier_merge', 'sheet_decision', 'session', '_prisma_migrations']
/** Two figures, each in two tables. */
const IN_TWO = ['readiness_tally', 'readiness_change', 'not_counted_tally', 'not_counted_change']

/** Every row there is, by table; what tallies say by what they are about, those of nothing left out. */
export async function everyRow(test: TestApp): Promise<Record<string, unknown[]>> {
  const tables = await test.sql<{ name: string }>(
    `SELECT c.relname AS name FROM pg_class c WHERE c.relkind = 'r' AND c.relnamespace = 'public'::regnamespace ORDER BY 1`,
  )
  const rows: Record<string, unknown[]> = {}
  for (const { name } of tables) {
    if (GROWS.includes(name) || IN_TWO.includes(name)) continue
    const condition = name === 'tally' ? 'WHERE t.attempts > 0' : name === 'person_tally' ? 'WHERE t.attempts > 0' : ''
    rows[name] = await test.sql(`SELECT to_jsonb(t) AS row FROM "${name}" t ${condition} ORDER BY to_jsonb(t)::text`)
  }
  rows.readiness = await test.sql(KEPT_READINESS)
  rows.not_counted = await test.sql(KEPT_NOT_COUNTED)
  return rows
}
