import { readConfig } from './config/config.ts'
import { StartProblem } from './config/start-problem.ts'
import { closeDatabase, openDatabase } from './db/client.ts'
import { openBeside } from './process/start/open-beside.ts'
import { checkRecord } from './record/services/read-record.ts'

/** `npm run verify-record`: walks the record of changes and says where it is not as it was written. */
async function main(): Promise<number> {
  const say = (line: string) => console.log(line)
  const server = await openBeside(readConfig(), { say, onLost: () => process.exit(1) })
  const db = openDatabase(server.url)
  try {
    const { whole, entries, lastHash, problems } = await checkRecord(db)
    for (const { detail } of problems) say(detail)
    say(
      whole
        ? `The record is whole: ${entries} entries.`
        : `The record is not whole; ${problems.length} places are listed above.`,
    )
    say(`It ends with ${lastHash}; note this elsewhere to see later that its end was not cut off.`)
    return whole ? 0 : 1
  } finally {
    await closeDatabase(db)
    await server.stop()
  }
}

main().then(
  (code) => process.exit(code),
  (error: unknown) => {
    console.error(error instanceof Error ? error.message : error)
    process.exit(error instanceof StartProblem ? 1 : 2)
  },
)
