import fs from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { readConfig } from './config/config.ts'
import { StartProblem } from './config/start-problem.ts'
import { createContext } from './context/create-context.ts'
import { closeDatabase, openDatabase } from './db/client.ts'
import { AppError } from './errors.ts'
import { importByCommand, KINDS_TO_NAME } from './imports/services/import-by-command.ts'
import { formatProgress } from './process/start/format-progress.ts'
import { migrate } from './process/start/migrate.ts'
import { openBeside } from './process/start/open-beside.ts'
import { runCommand } from './process/start/run-command.ts'

const HELP = `npm run import -- FILE… [options]

  --kind KIND           ${KINDS_TO_NAME}; left out: as the labels say
  --map COLUMN=LABEL    what is under a label, as in --map rosterNumber="Pers. no."; again for each
  --dates COLUMN=ORDER  how ambiguous dates are read: day-first, month-first, year-first, serial-1900 or serial-1904
  --answer KEY=ANSWER   what is said to a question about the file, as in --answer grade:SPC=add; again for each
  --sheet NAME          of a workbook; left out: the first
  --dry-run             say what would become of the rows, and store nothing
  --leave-out-refused   store the rest where rows are refused; else nothing of such a file is stored
  --as NAME             the account it is done as; left out: the only one of the training office

Refused rows are written beside the file, each with why. Ends with 0 where every file was taken whole, with 3 where rows
were refused, with 1 where something is wrong that can be put right.`

/** `npm run import -- FILE…`: takes files in, whether the server runs or not. */
runCommand(async (say) => {
  const { files, options } = readArguments()
  const config = readConfig()
  const server = await openBeside(config, { say, onLost: () => process.exit(1) })
  try {
    await migrate(server.url)
    const db = openDatabase(server.url)
    try {
      const { timeZone, importMegabytes } = config
      const context = createContext({ db, clock: () => new Date(), timeZone, importMegabytes })
      const showing = { say, progress: (stage: string) => formatProgress(stage) }
      process.exitCode = (await importByCommand(context, files, options, showing)) ? 0 : 3
    } catch (error) {
      throw error instanceof AppError ? new StartProblem(error.message) : error
    } finally {
      await closeDatabase(db)
    }
  } finally {
    await server.stop()
  }
})

function readArguments() {
  const text = { type: 'string' } as const
  const several = { type: 'string', multiple: true, default: [] as string[] } as const
  const flag = { type: 'boolean', default: false } as const
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: {
        kind: text,
        map: several,
        dates: several,
        answer: several,
        sheet: text,
        as: text,
        'dry-run': flag,
        'leave-out-refused': flag,
        help: flag,
      },
    })
    if (values.help || positionals.length === 0) throw new StartProblem(HELP)
    const files = positionals.map((name) => path.resolve(name))
    const missing = files.find((file) => !fs.existsSync(file))
    if (missing) throw new StartProblem(`There is no file ${missing}.`)
    const { kind, sheet, as } = values
    const options = {
      kind,
      sheet,
      as,
      map: pairs(values.map),
      dates: pairs(values.dates),
      answers: pairs(values.answer),
      dryRun: values['dry-run'],
      leaveOut: values['leave-out-refused'],
    }
    return { files, options }
  } catch (error) {
    throw error instanceof StartProblem
      ? error
      : new StartProblem(`${error instanceof Error ? error.message : error}\n\n${HELP}`)
  }
}

function pairs(given: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    given.map((pair) => {
      const at = pair.indexOf('=')
      if (at < 1) throw new StartProblem(`"${pair}" is no pair; write COLUMN=VALUE.`)
      return [pair.slice(0, at), pair.slice(at + 1)]
    }),
  )
}
