import { parseArgs } from 'node:util'
import { actorByName } from './accounts/services/actor-by-name.ts'
import { readConfig } from './config/config.ts'
import { StartProblem } from './config/start-problem.ts'
import { createContext } from './context/create-context.ts'
import { closeDatabase, openDatabase } from './db/client.ts'
import { AppError } from './errors.ts'
import { type PlanOptions, planByCommand } from './plans/services/retests/plan-by-command.ts'
import { migrate } from './process/start/migrate.ts'
import { openBeside } from './process/start/open-beside.ts'
import { runCommand } from './process/start/run-command.ts'

const HELP = `npm run plan -- [options]

  --from DAY        first day, YYYY-MM-DD; left out: today
  --to DAY          last day; left out: 45 days on
  --unit ID         the unit with all below it; left out: the one at the top
  --renewals        also who lapses by the last day, or has lapsed
  --first-tests     also who must hold a certification and was not tested yet
  --move-bookings   bookings there are may move; none is lost
  --seconds N       so long it may be solved, 1 to 120; left out: 20
  --accept          book all of it
  --as NAME         the account it is done as; left out: the only one of the training office

Says which retest goes into which slot and what is not placed. Ends with 0 where every test was placed, with 3 where some
were not, with 1 where something is wrong that can be put right.`

/** `npm run plan`: works a retest plan out, and books it where asked, whether the server runs or not. */
runCommand(async (say) => {
  const { as, options } = readArguments()
  const config = readConfig()
  const server = await openBeside(config, { say, onLost: () => process.exit(1) })
  try {
    await migrate(server.url)
    const db = openDatabase(server.url)
    try {
      const context = createContext({ db, clock: () => new Date(), timeZone: config.timeZone })
      const actor = await actorByName(context, as)
      process.exitCode = (await planByCommand(context, actor, options, say)) ? 0 : 3
    } catch (error) {
      throw error instanceof AppError ? new StartProblem(error.message) : error
    } finally {
      await closeDatabase(db)
    }
  } finally {
    await server.stop()
  }
})

const DAY = /^\d{4}-\d{2}-\d{2}$/
const MOST_SECONDS = 120

function readArguments(): { as: string | undefined; options: PlanOptions } {
  const text = { type: 'string' } as const
  const flag = { type: 'boolean', default: false } as const
  try {
    const { values } = parseArgs({
      options: {
        from: text,
        to: text,
        unit: text,
        seconds: text,
        as: text,
        renewals: flag,
        'first-tests': flag,
        'move-bookings': flag,
        accept: flag,
        help: flag,
      },
    })
    if (values.help) throw new StartProblem(HELP)
    const { from, to } = values
    for (const day of [from, to]) {
      if (day !== undefined && !DAY.test(day)) throw new StartProblem(`"${day}" is no day; write YYYY-MM-DD.`)
    }
    if (from !== undefined && to !== undefined && to < from) throw new StartProblem('The last day is before the first.')
    const seconds = Number(values.seconds ?? 20)
    if (!Number.isInteger(seconds) || seconds < 1 || seconds > MOST_SECONDS) {
      throw new StartProblem(`--seconds is a whole number from 1 to ${MOST_SECONDS}.`)
    }
    const { renewals, accept, 'first-tests': firstTests, 'move-bookings': moveBookings } = values
    const options = { renewals, firstTests, moveBookings, seconds }
    return { as: values.as, options: { from, to, unitId: values.unit, accept, options } }
  } catch (error) {
    throw error instanceof StartProblem
      ? error
      : new StartProblem(`${error instanceof Error ? error.message : error}\n\n${HELP}`)
  }
}
