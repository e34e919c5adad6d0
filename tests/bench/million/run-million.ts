import { CeremonyDetail } from '../../../server/contract/ceremonies/ceremonies.ts'
import { MeasureFindings } from '../../../server/contract/findings/findings.ts'
import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import { closedLoop } from '../measure/closed-loop.ts'
import { type CpuClock, cpuClock } from '../measure/cpu-clock.ts'
import type { HttpCaller } from '../measure/http-caller.ts'
import { type MemoryUse, memoryOf } from '../measure/memory.ts'
import { quantile } from '../measure/summary.ts'
import type { RecordSize } from '../record-size.ts'
import type { StoreTimes } from '../results.ts'
import { startScratchServer } from '../scratch-server.ts'
import { type Stand, type Surroundings, setUp, spoken, started } from '../set-up.ts'
import { timeStores } from '../store/time-stores.ts'
import { type DuckTimes, timeDuck } from './duck-measures.ts'
import { greatCeremony, wideQuestions } from './questions.ts'
import { type ArchiveTimes, timeArchive } from './time-archive.ts'

export interface WideTime {
  readonly name: string
  /** Milliseconds the first time, and the median of the further times. */
  readonly first: number
  readonly median: number
  /** Milliseconds of processor time of the server and PostgreSQL a further time; null where the system does not tell. */
  readonly cpu: number | null
  readonly bytes: number
  /** Why it was not answered; then the times say how long that took. */
  readonly refused: string | null
}

export interface MillionResults {
  readonly size: RecordSize
  /** Seconds until the record was filled and checked, with a copy of it. */
  readonly filling: number
  readonly questions: readonly WideTime[]
  readonly stores: StoreTimes
  readonly memory: { readonly idle: MemoryUse | null; readonly after: MemoryUse | null }
  readonly archive: ArchiveTimes
  readonly duck: DuckTimes
  /** DuckDB counted what the product answers. */
  readonly isSameInDuck: boolean
}

const TIMES = 5
/** Longer than this altogether a question is not asked. */
const LONGEST_MS = 20_000
const STORES = { rounds: 3, sheetsARound: 60 }

/** Fills one record with many soldiers and asks everything of it that somebody may who sees everything. */
export async function runMillion(size: RecordSize, surroundings: Surroundings): Promise<MillionResults> {
  const { say, undo, fail } = surroundings
  const today = new Date().toISOString().slice(0, 10)
  const onLost = () => fail(new Error('The PostgreSQL of the benchmark has ended.'))
  const server = await started(undo, startScratchServer(say, onLost), ({ remove }) => remove())
  const start = performance.now()
  const stand = await setUp(server, 'bench_million', size, today, surroundings)
  const filling = (performance.now() - start) / 1000
  const questions = await spoken(say, 'Asking', () => askAll(stand, today))
  const clocks = { product: stand.product.cpu, byHand: cpuClock([process.pid], [server.pid]) }
  const stores = await spoken(say, 'Storing', () =>
    timeStores(stand.origin, stand.copyUrl, clocks, { concurrency: 4, sheets: stand.sheets[0]!, ...STORES }),
  )
  const memory = { idle: stand.idle, after: memoryOf(stand.pid) }
  const unit = stand.record.establishment.battalions[0]!
  const duck = await spoken(say, 'Counting in DuckDB', () =>
    timeDuck(server.adminUrl, 'bench_million', server.folder, unit),
  )
  const measures = await stand.product.caller.get('/api/findings/measures')
  const bareUrl = await server.createBare('bench_restored')
  const archive = await spoken(say, 'Backing up and restoring', () => timeArchive(stand.url, bareUrl, server.folder))
  return {
    size,
    filling,
    questions,
    stores: { sheets: size.sheets, concurrency: 4, ...stores },
    memory,
    archive,
    duck,
    isSameInDuck: JSON.stringify(countsOf(measures)) === JSON.stringify(duck.counts),
  }
}

async function askAll(stand: Stand, today: PlainDate): Promise<WideTime[]> {
  const { caller, cpu } = stand.product
  const times: WideTime[] = []
  for (const [name, path] of wideQuestions(stand.record, today)) {
    times.push(await ask(name, cpu, () => caller.get(path)))
  }
  const ceremony = greatCeremony(stand.record, today)
  const made = await ask('a ceremony of 400 posts, made', cpu, () => caller.post('/api/ceremonies', ceremony))
  return [...times, made, ...(await askOfCeremony(caller, cpu))]
}

async function askOfCeremony(caller: HttpCaller, cpu: CpuClock): Promise<WideTime[]> {
  const { items } = JSON.parse(await caller.get('/api/ceremonies?limit=1')) as { items: { id: string }[] }
  const id = items[0]?.id
  if (id === undefined) return []
  const { formation } = CeremonyDetail.parse(JSON.parse(await caller.get(`/api/ceremonies/${id}`)))
  const post = formation[0]!.id
  return [
    await ask('a ceremony of 400 posts, opened', cpu, () => caller.get(`/api/ceremonies/${id}`)),
    await ask('who can take a post', cpu, () => caller.get(`/api/ceremonies/${id}/posts/${post}/candidates?limit=50`)),
  ]
}

async function ask(name: string, cpu: CpuClock, call: () => Promise<string>): Promise<WideTime> {
  let bytes = 0
  let refused: string | null = null
  const once = async () => {
    try {
      bytes = Buffer.byteLength(await call())
    } catch (error) {
      refused = (error as Error).message.slice(0, 200)
    }
  }
  const first = (await closedLoop(once, 1, { calls: 1 })).latencies[0]!
  const isLong = first * TIMES > LONGEST_MS || refused !== null
  const before = cpu()
  const further = isLong ? [first] : [...(await closedLoop(once, 1, { calls: TIMES })).latencies]
  const after = cpu()
  return {
    name,
    first,
    median: quantile(
      further.sort((a, b) => a - b),
      0.5,
    ),
    cpu: isLong || before === null || after === null ? null : ((after - before) * 1000) / TIMES,
    bytes,
    refused,
  }
}

/** Tested and NO-GO of each measure, in ascending order of both. */
function countsOf(answer: string): [number, number][] {
  const { items, majors } = MeasureFindings.parse(JSON.parse(answer))
  return [
    ...items.map(({ tested, noGo }): [number, number] => [tested, noGo]),
    ...majors.map(({ judged, noGo }): [number, number] => [judged, noGo]),
  ].sort(([a, b], [c, d]) => a - c || b - d)
}
