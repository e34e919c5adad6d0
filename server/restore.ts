import path from 'node:path'
import { checkArchive } from './archive/check-archive.ts'
import { restoreArchive } from './archive/restore-archive.ts'
import { readConfig } from './config/config.ts'
import { StartProblem } from './config/start-problem.ts'
import { formatProgress } from './process/start/format-progress.ts'
import { openServer } from './process/start/open-database.ts'
import { runCommand } from './process/start/run-command.ts'

/** `npm run restore -- FILE`: an archive into an empty database. */
runCommand(async (say) => {
  const [given] = process.argv.slice(2)
  if (given === undefined) throw new StartProblem('Say which archive: npm run restore -- FILE')
  const file = path.resolve(given)
  const config = readConfig()
  // Before a data folder is made for it.
  await checkArchive(file)
  const server = await openServer(config, { say, onLost: () => process.exit(1) })
  try {
    const { head, tables } = await restoreArchive(server.url, file, { onProgress: formatProgress('Restoring') })
    const rows = tables.reduce((sum, table) => sum + table.rows, 0)
    say(`Restored: ${rows} rows of ${tables.length} tables, as of ${head.takenAt}. The record of changes is whole.`)
    if (head.timeZone !== config.timeZone) {
      say(
        `Its units without a zone went by ${head.timeZone}, here it is ${config.timeZone}: set REVIEWSTAND_TIME_ZONE.`,
      )
    }
    say(
      head.demo
        ? 'It holds the demo, whose passwords are public.'
        : 'Start the server with REVIEWSTAND_DEMO=off; everybody signs in with the password they had then.',
    )
  } finally {
    await server.stop()
  }
})
