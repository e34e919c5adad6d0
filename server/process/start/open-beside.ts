import fs from 'node:fs'
import path from 'node:path'
import type { Config } from '../../config/config.ts'
import { StartProblem } from '../../config/start-problem.ts'
import { connectAdmin } from '../postgres/connect-admin.ts'
import { tryFolderLock } from '../postgres/folder-lock.ts'
import { postgresHome, productUrl } from '../postgres/postgres-home.ts'
import { findPostmaster } from '../postgres/postmaster.ts'
import { type OpenedDatabase, openServer } from './open-database.ts'

interface Options {
  say: (line: string) => void
  onLost: () => void
}

/**
 * The database for a command beside the server, whether a server runs or not: that of DATABASE_URL; the PostgreSQL of the
 * data folder beside the server that uses it just now; or, where none does, started for the command alone.
 * @throws StartProblem where there is no data folder
 */
export async function openBeside(config: Config, options: Options): Promise<Pick<OpenedDatabase, 'url' | 'stop'>> {
  if (config.databaseUrl !== null) return openServer(config, options)
  const home = postgresHome(path.join(config.dataFolder, 'postgres'))
  if (!fs.existsSync(home.files)) {
    throw new StartProblem(
      `There is no data in ${config.dataFolder}. Set REVIEWSTAND_DATA to the folder of the server.`,
    )
  }
  const running = findPostmaster(home.files)
  const session = running?.isReady ? await connectAdmin(home, running.port) : null
  if (running === null || session === null) return openServer(config, options)
  try {
    if ((await tryFolderLock(session)) !== null) return { url: productUrl(home, running.port), stop: async () => {} }
  } finally {
    await session.end()
  }
  return openServer(config, options)
}
