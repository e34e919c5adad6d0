import { closeDatabase, openDatabase } from '../../server/db/client.ts'
import { addDays, type PlainDate } from '../../server/domain/calendar/plain-date.ts'
import { startProduct } from '../support/start-product.ts'
import { ACCOUNT } from './account.ts'
import { checkRecord } from './check/check-record.ts'
import { type FilledRecord, fillDatabase } from './generate/fill-database.ts'
import { cpuClock } from './measure/cpu-clock.ts'
import { openCaller } from './measure/http-caller.ts'
import { type MemoryUse, memoryOf } from './measure/memory.ts'
import { questionsAbout } from './read/questions.ts'
import { startBareServer } from './read/start-bare-server.ts'
import type { Answerer, ReadStand } from './read/time-reads.ts'
import type { RecordSize } from './record-size.ts'
import type { ScratchServer } from './scratch-server.ts'
import { prepareSheets } from './store/prepare-sheets.ts'
import type { PreparedSheet } from './store/prepared-sheet.ts'

export interface Surroundings {
  say: (line: string) => void
  /** Adds what is to be undone at the end, however it ends. */
  undo: (undo: () => Promise<void>) => void
  fail: (error: unknown) => void
}

export const READ_CONCURRENCY = 4

/** The limit counts, as it always does, and is never reached. */
const MORE_THAN_WE_ASK = '100000000'

/** Far enough back that two more weekly tests of everybody lie in the past. */
export const DAYS_SINCE_RECORD = 25

/** One record with the product on it, the bare server, and a copy for the hand-written transactions. */
export interface Stand extends ReadStand {
  readonly size: RecordSize
  readonly record: FilledRecord
  readonly url: string
  readonly copyUrl: string
  readonly origin: string
  readonly sheets: readonly PreparedSheet[][]
  /** Of the product's process. */
  readonly pid: number
  readonly idle: MemoryUse | null
}

/** Fills a record, checks it, copies it, and starts the product and the bare server on it. */
export async function setUp(
  server: ScratchServer,
  name: string,
  size: RecordSize,
  today: PlainDate,
  { say, undo }: Surroundings,
): Promise<Stand> {
  const url = await server.create(name)
  const endsOn = addDays(today, -DAYS_SINCE_RECORD)
  const record = await spoken(say, `Filling ${size.sheets} sheets`, () => fillDatabase(url, size, endsOn))
  await spoken(say, 'Checking them against the product', () => checkRecord(url))
  const sheets = await spoken(say, 'Preparing sheets to store', () => prepare(url, record, endsOn))
  const copyUrl = await spoken(say, 'Copying the database', () => server.copy(name, `${name}_by_hand`))
  const settings = { DATABASE_URL: url, REVIEWSTAND_DEMO: 'off', REVIEWSTAND_REQUESTS_PER_MINUTE: MORE_THAN_WE_ASK }
  const product = await started(undo, startProduct(settings), ({ end }) => end('SIGTERM'))
  const bareServer = await started(undo, startBareServer(url), ({ end }) => end())
  const answerer = async (origin: string, pid: number, account: typeof ACCOUNT | null): Promise<Answerer> => {
    const caller = await openCaller(origin, READ_CONCURRENCY, account)
    undo(caller.close)
    return { caller, cpu: cpuClock([pid], [server.pid]) }
  }
  return {
    size,
    record,
    url,
    copyUrl,
    origin: product.url,
    sheets,
    pid: product.process.pid!,
    idle: memoryOf(product.process.pid!),
    product: await answerer(product.url, product.process.pid!, ACCOUNT),
    bare: await answerer(bareServer.url, bareServer.pid, null),
    questions: questionsAbout(record, today),
  }
}

/** Waits for what is being started; it is ended at the end, also when that comes before it is up. */
export async function started<Thing>(
  undo: Surroundings['undo'],
  starting: Promise<Thing>,
  end: (thing: Thing) => Promise<unknown>,
): Promise<Thing> {
  undo(async () => {
    const thing = await starting.catch(() => null)
    if (thing !== null) await end(thing)
  })
  return starting
}

async function prepare(url: string, record: FilledRecord, endsOn: PlainDate): Promise<PreparedSheet[][]> {
  const db = openDatabase(url)
  try {
    return await prepareSheets(db, record, endsOn)
  } finally {
    await closeDatabase(db)
  }
}

export async function spoken<Result>(
  say: (line: string) => void,
  what: string,
  work: () => Promise<Result>,
): Promise<Result> {
  const start = performance.now()
  const result = await work()
  say(`${what}: ${((performance.now() - start) / 1000).toFixed(1)} s`)
  return result
}
