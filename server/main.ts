import { buildApp } from './app.ts'
import { openBackups } from './archive/backup-keeper.ts'
import { type Config, readConfig } from './config/config.ts'
import { StartProblem } from './config/start-problem.ts'
import { closeDatabase, openDatabase } from './db/client.ts'
import { readCertificateKey } from './process/start/certificate-key.ts'
import { countSheetsAnew } from './process/start/count-anew.ts'
import { type FirstData, giveFirstData, type LoadDemo } from './process/start/first-data.ts'
import { formatHowSafe } from './process/start/format-how-safe.ts'
import { keepFits } from './process/start/keep-fits.ts'
import { leaveRoot } from './process/start/leave-root.ts'
import { checkAddress, listen, stopListening } from './process/start/listen.ts'
import { createLogger } from './process/start/logger.ts'
import { openServer, prepareSchema } from './process/start/open-database.ts'
import { openSignals } from './process/start/open-signals.ts'
import { orderlyStop } from './process/start/orderly-stop.ts'
import { readPushKey } from './process/start/push-key.ts'
import { readSecretKey } from './process/start/secret-key.ts'
import { openPush } from './push/open-push.ts'

const say = (line: string) => console.log(line)
const clock = () => new Date()
/** Its code is read only where there is a demo to load. */
const loadDemo: LoadDemo = async (to) => (await import('../seed/main.ts')).loadDemo(to)
const logged: { logLevel: Config['logLevel'] } = { logLevel: 'warn' }
const ending = orderlyStop({ say, onError: report, exit: (code) => process.exit(code) })

process.stdout.on('error', () => {}) // Whoever read our lines is gone; that is no reason to end.
for (const event of ['uncaughtException', 'unhandledRejection'] as const) process.on(event, fail)
start().catch(fail)

async function start(): Promise<void> {
  const config = readConfig()
  logged.logLevel = config.logLevel
  const onLost = () => fail(new StartProblem('PostgreSQL has ended. Start Reviewstand again; the next start recovers.'))
  const server = await openServer(config, { say, onLost })
  ending.add(server.stop)
  await checkAddress(config)
  await prepareSchema(server, say)
  const db = openDatabase(server.url, config.databaseReadUrl)
  ending.add(() => closeDatabase(db))
  await countSheetsAnew(server.url, db, say)
  const firstData = await giveFirstData({ config, url: server.url, db, clock, say, loadDemo })
  const logger = createLogger(config)
  const secretKey = readSecretKey(config)
  const certificateKey = readCertificateKey(config)
  const backups = await openBackups({
    url: server.url,
    folder: config.backupFolder,
    at: config.backupAt,
    keep: config.backupsKept,
    timeZone: config.timeZone,
    clock,
    onProblem: (error) => logger.error({ err: error }, 'No backup was made'),
  })
  ending.add(() => backups.close())
  const mail = config.mail && (await import('./smtp/open-mail-post.ts')).openMailPost(config.mail)
  const push = openPush(readPushKey(config))
  const app = await buildApp({
    config,
    db,
    clock,
    signals: openSignals(server.url),
    backups,
    mail,
    secretKey,
    certificateKey,
    push,
    logger,
  })
  ending.add(() => stopListening(app))
  const address = await listen(app, config)
  const attention = leaveRoot(config)
  await server.serves(address)
  for (const line of formatHowSafe(config, clock())) say(line)
  greet(address, firstData, attention)
  const fits = keepFits({ url: server.url, timeZone: config.timeZone }, (error) =>
    logger.error({ err: error }, 'The forecasts were not brought up to date'),
  )
  ending.add(() => fits.close())
}

function greet(address: string, { holdsDemo, setupToken, newLinkToken }: FirstData, attention: string[]): void {
  say(`Reviewstand is open at ${address}`)
  if (holdsDemo) {
    say('It shows a demo of an invented unit. Sign in as office, leader, sponsor, grader, commander, admin or soldier;')
    say('the password is calloway-demo-only.')
  }
  // In the fragment the token is sent to no server and stands in no log.
  if (setupToken !== null)
    say(`There is no account yet. Make the first one at ${address}/setup#${setupToken} (works once)`)
  if (newLinkToken !== null) {
    say(`A new password is chosen at ${address}/welcome#${newLinkToken} (works once, for 72 hours)`)
    say('Take REVIEWSTAND_NEW_LINK out again before the next start.')
  }
  for (const line of attention) say(line)
  say('Ctrl-C stops it.')
}

function fail(error: unknown): void {
  if (ending.isStopping()) return
  report(error)
  void ending.stop(1)
}

/** One clear sentence; what lies behind it shows at LOG_LEVEL=debug. */
function report(error: unknown): void {
  const message = error instanceof Error ? error.message : String(error)
  console.error(error instanceof StartProblem ? message : `Unexpected error: ${message} (LOG_LEVEL=debug shows more)`)
  createLogger(logged).debug({ err: error instanceof StartProblem ? (error.cause ?? error) : error }, 'Cause')
}
