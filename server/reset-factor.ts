import { resetFactorsOnMachine } from './accounts/services/factors/reset-factors.ts'
import { readConfig } from './config/config.ts'
import { StartProblem } from './config/start-problem.ts'
import { closeDatabase, openDatabase } from './db/client.ts'
import { openBeside } from './process/start/open-beside.ts'
import { runCommand } from './process/start/run-command.ts'

/** `npm run reset-factor -- NAME`: takes the second factors of an account away, for a last administrator whose phone is lost. */
runCommand(async (say) => {
  const name = process.argv[2]
  if (name === undefined) throw new StartProblem('Say of which account: npm run reset-factor -- NAME')
  const server = await openBeside(readConfig(), { say, onLost: () => process.exit(1) })
  const db = openDatabase(server.url)
  try {
    const taken = await resetFactorsOnMachine({ db, clock: () => new Date() }, name)
    if (taken === null) throw new StartProblem(`There is no account ${JSON.stringify(name)} that can sign in.`)
    const { app, passkeys, sessionsEnded } = taken
    say(
      `Taken away from ${name}: ${app ? 'an' : 'no'} authenticator app, passkeys: ${passkeys}. Sessions ended: ${sessionsEnded}.`,
    )
    say('It is on the record of changes, and they are told at the next sign-in, which takes the password.')
  } finally {
    await closeDatabase(db)
    await server.stop()
  }
})
