import { connectDatabase } from './connect-database.ts'

/** Number of our advisory lock in the product's database for what only one process may do at a start. */
const lockNumber = 41_800_002

/** Runs `work` while no other process that shares the database does; others wait their turn. */
export async function withSetupLock<T>(url: string, work: () => Promise<T>): Promise<T> {
  const session = await connectDatabase(url)
  try {
    await session.query('SELECT pg_advisory_lock($1)', [lockNumber])
    return await work()
  } finally {
    await session.end()
  }
}
