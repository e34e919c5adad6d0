import type { TestApp } from './build-test-app.ts'

/** How many rows each table has, but for sessions; equal before and after what must change nothing. */
export async function countRows({ sql }: Pick<TestApp, 'sql'>): Promise<Record<string, number>> {
  const tables = await sql<{ name: string }>(
    `SELECT table_name AS name FROM information_schema.tables
    WHERE table_schema = 'public' AND table_name <> 'session' ORDER BY 1`,
  )
  const [counts] = await sql<Record<string, number>>(
    `SELECT ${tables.map(({ name }) => `(SELECT count(*)::int FROM "${name}") AS "${name}"`).join(', ')}`,
  )
  return counts!
}
