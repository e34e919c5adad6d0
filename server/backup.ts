import fs from 'node:fs'
import path from 'node:path'
import { archiveName } from './archive/archive-name.ts'
import { readProductVersion } from './archive/product-version.ts'
import { saveArchive } from './archive/save-archive.ts'
import { readConfig } from './config/config.ts'
import { connectDatabase } from './process/start/connect-database.ts'
import { formatProgress } from './process/start/format-progress.ts'
import { openBeside } from './process/start/open-beside.ts'
import { runCommand } from './process/start/run-command.ts'

/** `npm run backup [-- FILE]`: everything in one archive, whether the server runs or not. */
runCommand(async (say) => {
  const config = readConfig()
  const file = path.resolve(process.argv[2] ?? path.join(config.backupFolder, archiveName(new Date())))
  if (process.argv[2] === undefined) fs.mkdirSync(path.dirname(file), { recursive: true, mode: 0o700 })
  const server = await openBeside(config, { say, onLost: () => process.exit(1) })
  try {
    const database = await connectDatabase(server.url)
    try {
      const { tables } = await saveArchive(database, file, {
        timeZone: config.timeZone,
        product: readProductVersion(),
        onProgress: formatProgress('Writing'),
      })
      const rows = tables.reduce((sum, table) => sum + table.rows, 0)
      const bytes = fs.statSync(file).size
      say(`The backup is ${file}: ${rows} rows of ${tables.length} tables, ${bytes} bytes, read back and whole.`)
      say('It holds names and password hashes: keep it as safe as the server itself.')
    } finally {
      await database.end()
    }
  } finally {
    await server.stop()
  }
})
