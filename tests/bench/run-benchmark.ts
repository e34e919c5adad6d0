import { closeDatabase, openDatabase } from '../../server/db/client.ts'
import { addDays, type PlainDate } from '../../server/domain/calendar/plain-date.ts'
import { startProduct } from '../support/start-product.ts'
import { ACCOUNT } from './account.ts'
import { checkRecord } from './check/check-record.ts'
import { timeFits } from './fit/time-fits.ts'
import { type FilledRecord, fillDatabase } from './generate/fill-database.ts'
import { cpuClock } from './measure/cpu-clock.ts'
import { openCaller } from './measure/http-caller.ts'
import { type MemoryUse, memoryOf } from './measure/memory.ts'
import type { Plan } from './options.ts'
import { timePhone } from './phone/time-phone.ts'
import { timeManning } from './plan/time-manning.ts'
import { timePlans } from './plan/time-plans.ts'
import { questionsAbout } from './read/questions.ts'
import { startBareServer } from './read/start-bare-server.ts'
import { type Answerer, type ReadStand, timeReads } from './read/time-reads.ts'
import type { RecordSize } from './record-size.ts'
import type { Results, StoreTimes } from './results.ts'
import { type ScratchServer, startScratchServer } from './scratch-server.ts'
import { prepareSheets } from './store/prepare-sheets.ts'
import type { PreparedSheet } from './store/prepared-sheet.ts'
import { differingTables } from './store/same-rows.ts'
import { timeStores } from './store/time-stores.ts'

interface Surroundings {
  say: (line: string) => void
  /** Adds what is to be undone at the end, however it ends. */
  undo: (undo: () => Promise<void>) => void
  fail: (error: unknown) => void
}

const READ_CONCURRENCY = 4
const STORE_CONCURRENCIES = [1, 4] as const

/** The limit counts, as it always does, and is never reached. */
const MORE_THAN_WE_ASK = '100000000'

/** Far enough back that two more weekly tests of everybody lie in the past. */
const DAYS_SINCE_RECORD = 25

/** One record with the product on it, the bare server, and a copy for the hand-written transactions. */
interface Stand extends ReadStand {
  readonly size: RecordSize
  readonly url: string
  readonly copyUrl: string
  readonly origin: string
  readonly sheets: readonly PreparedSheet[][]
  /** Of the product's process. */
  readonly pid: number
  readonly idle: MemoryUse | null
}

/** Fills both records, times reads and then stores, and removes nothing: that is left to what it gave to `undo`. */
export async function runBenchmark(plan: Plan, surroundings: Surroundings): Promise<Results> {
  const { say, undo, fail } = surroundings
  const today = new Date().toISOString().slice(0, 10)
  const onLost = () => fail(new Error('The PostgreSQL of the benchmark has ended.'))
  const server = await started(undo, startScratchServer(say, onLost), ({ remove }) => remove())
  const small = await setUp(server, 'bench_small', plan.small, today, surroundings)
  const large = await setUp(server, 'bench_large', plan.large, today, surroundings)
  say('Timing reads …')
  const reads = await timeReads(small, large, {
    rounds: plan.reads.rounds,
    concurrency: READ_CONCURRENCY,
    extent: { milliseconds: plan.reads.milliseconds },
    warmUp: { milliseconds: plan.reads.warmUp },
  })
  say('Timing stores …')
  const stores: StoreTimes[] = []
  const differing: string[] = []
  for (const stand of [small, large]) {
    for (const [index, concurrency] of STORE_CONCURRENCIES.entries()) {
      const clocks = { product: stand.product.cpu, byHand: cpuClock([process.pid], [server.pid]) }
      const contest = { concurrency, sheets: stand.sheets[index]!, ...plan.stores }
      stores.push({
        sheets: stand.size.sheets,
        concurrency,
        ...(await timeStores(stand.origin, stand.copyUrl, clocks, contest)),
      })
    }
    const tables = await differingTables(stand.url, stand.copyUrl, addDays(today, -DAYS_SINCE_RECORD))
    differing.push(...tables.map((table) => `${table} (${stand.size.sheets} sheets)`))
  }
  const memory = [small, large].map(({ size, idle, pid }) => ({ sheets: size.sheets, idle, after: memoryOf(pid) }))
  say('Grading on a phone …')
  const phone = await timePhone(small.origin, plan.phone)
  say('Solving retest plans …')
  const plans = timePlans()
  say('Manning ceremonies …')
  const manning = timeManning()
  say('Fitting …')
  const fits = timeFits(plan.fits)
  const sizes = { small: plan.small.sheets, large: plan.large.sheets }
  return {
    ...sizes,
    readConcurrency: READ_CONCURRENCY,
    reads,
    stores,
    memory,
    phone,
    plans,
    manning,
    fits,
    differingTables: differing,
  }
}

async function setUp(
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
async function started<Thing>(
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

async function spoken<Result>(say: (line: string) => void, what: string, work: () => Promise<Result>): Promise<Result> {
  const start = performance.now()
  const result = await work()
  say(`${what}: ${((performance.now() - start) / 1000).toFixed(1)} s`)
  return result
}
