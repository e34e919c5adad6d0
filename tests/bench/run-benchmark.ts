import { addDays } from '../../server/domain/calendar/plain-date.ts'
import { timeFits } from './fit/time-fits.ts'
import { cpuClock } from './measure/cpu-clock.ts'
import { memoryOf } from './measure/memory.ts'
import type { Plan } from './options.ts'
import { timePhone } from './phone/time-phone.ts'
import { timeManning } from './plan/time-manning.ts'
import { timePlans } from './plan/time-plans.ts'
import { timeReads } from './read/time-reads.ts'
import type { Results, StoreTimes } from './results.ts'
import { startScratchServer } from './scratch-server.ts'
import { DAYS_SINCE_RECORD, READ_CONCURRENCY, type Surroundings, setUp, started } from './set-up.ts'
import { differingTables } from './store/same-rows.ts'
import { timeHistories } from './store/time-histories.ts'
import { timeStores } from './store/time-stores.ts'

const STORE_CONCURRENCIES = [1, 4] as const

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
  const { few, many } = plan.histories
  const ofFew = await setUp(server, 'bench_few', few, today, surroundings)
  const ofMany = await setUp(server, 'bench_many', many, today, surroundings)
  say('Timing stores after short and long histories …')
  const histories = await timeHistories(ofFew, ofMany, plan.stores)
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
    histories,
    memory,
    phone,
    plans,
    manning,
    fits,
    differingTables: differing,
  }
}
