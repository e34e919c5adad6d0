import { type ResourceLimits, Worker } from 'node:worker_threads'
import type { PlanProblem, Solution } from '../../domain/plans/problem.ts'
import type { ThreadJob, ThreadWord } from './solver-thread.ts'

export type Outcome =
  | { readonly state: 'ready' | 'stopped'; readonly solution: Solution; readonly seconds: number }
  | { readonly state: 'failed'; readonly why: string; readonly seconds: number }

export interface Progress {
  /** How many are solved before it; 0: it is being solved. */
  readonly ahead: number
  /** Since it began to be solved. */
  readonly seconds: number
  readonly limit: number
  /** How many the best so far places; null: none is found yet. */
  readonly placed: number | null
}

export interface Ticket {
  readonly outcome: Promise<Outcome>
  progress(): Progress
  /** Ends the search, which then answers with the best so far; one that still waits is not begun. */
  stop(): void
}

interface Job {
  readonly problem: PlanProblem
  readonly limit: number
  readonly flag: SharedArrayBuffer
  readonly settle: (outcome: Outcome) => void
  startedAt: number | null
  placed: number | null
  found: Solution | null
  isStopped: boolean
}

const MEMORY = { maxOldGenerationSizeMb: 1024, maxYoungGenerationSizeMb: 128 }
/** A search that does not end by itself is ended so long after its limit. */
const GRACE_MS = 20_000

/**
 * Solves problems on a thread of its own, one after the other. A thread that dies, or takes more memory than it may, is an
 * outcome `failed` of its problem; the next problem gets a new thread.
 */
export class SolverQueue {
  readonly #jobs: Job[] = []
  #worker: Worker | null = null
  #guard: NodeJS.Timeout | null = null
  readonly #memory: ResourceLimits

  constructor(memory: ResourceLimits = MEMORY) {
    this.#memory = memory
  }

  /** How many are being solved or wait. */
  get length(): number {
    return this.#jobs.length
  }

  /** In: a problem, and how many seconds its search may take. */
  add(problem: PlanProblem, limit: number): Ticket {
    const { promise, resolve } = withResolvers<Outcome>()
    const job: Job = {
      problem,
      limit,
      flag: new SharedArrayBuffer(4),
      settle: resolve,
      startedAt: null,
      placed: null,
      found: null,
      isStopped: false,
    }
    this.#jobs.push(job)
    if (this.#jobs.length === 1) this.#begin()
    return {
      outcome: promise,
      progress: () => ({
        ahead: Math.max(0, this.#jobs.indexOf(job)),
        seconds: secondsOf(job),
        limit,
        placed: job.placed,
      }),
      stop: () => this.#stop(job),
    }
  }

  /** Ends the thread and all that wait for it. */
  async close(): Promise<void> {
    const worker = this.#dropWorker()
    for (const job of this.#jobs.splice(0)) {
      job.settle({ state: 'failed', why: 'The server was stopped meanwhile.', seconds: secondsOf(job) })
    }
    await worker?.terminate()
  }

  #begin(): void {
    const job = this.#jobs[0]
    if (!job) {
      this.#worker?.unref()
      return
    }
    job.startedAt = performance.now()
    this.#worker ??= this.#openWorker()
    this.#worker.ref()
    this.#guard = setTimeout(() => this.#giveUp(job, 'The search did not end in time.'), job.limit * 1000 + GRACE_MS)
    this.#guard.unref()
    const message: ThreadJob = { problem: job.problem, seconds: job.limit, stop: job.flag }
    this.#worker.postMessage(message)
  }

  #openWorker(): Worker {
    const worker = new Worker(new URL('./solver-worker.mjs', import.meta.url), { resourceLimits: this.#memory })
    worker.on('message', (word: ThreadWord) => {
      if (worker === this.#worker) this.#hear(word)
    })
    const died = (why: string) => {
      if (worker !== this.#worker) return
      this.#dropWorker()
      const job = this.#jobs[0]
      if (job) this.#end(job, this.#bestOr(job, why))
    }
    worker.on('error', (error) => died(error instanceof Error ? error.message : String(error)))
    worker.on('exit', () => died('The thread that solves ended.'))
    return worker
  }

  #hear(word: ThreadWord): void {
    const job = this.#jobs[0]
    if (!job) return
    if (word.kind === 'better') job.placed = word.placed
    else if (word.kind === 'found') {
      job.found = word.solution
      if (job.isStopped) this.#giveUp(job, 'Stopped.')
    } else if (word.kind === 'failed') this.#end(job, this.#bestOr(job, word.why))
    else this.#end(job, this.#solved(job, word.solution))
  }

  #stop(job: Job): void {
    job.isStopped = true
    Atomics.store(new Int32Array(job.flag), 0, 1)
    if (this.#jobs[0] === job && job.found) this.#giveUp(job, 'Stopped.')
  }

  /** Ends the thread in the middle of its work. */
  #giveUp(job: Job, why: string): void {
    if (this.#jobs[0] !== job) return
    const worker = this.#dropWorker()
    void worker?.terminate()
    this.#end(job, this.#bestOr(job, why))
  }

  #dropWorker(): Worker | null {
    const worker = this.#worker
    this.#worker = null
    return worker
  }

  #bestOr(job: Job, why: string): Outcome {
    return job.found ? this.#solved(job, job.found) : { state: 'failed', why, seconds: secondsOf(job) }
  }

  #solved(job: Job, solution: Solution): Outcome {
    return { state: job.isStopped ? 'stopped' : 'ready', solution, seconds: secondsOf(job) }
  }

  #end(job: Job, outcome: Outcome): void {
    if (this.#guard) clearTimeout(this.#guard)
    this.#jobs.shift()
    job.settle(outcome)
    this.#begin()
  }
}

const secondsOf = ({ startedAt }: Job): number => (startedAt === null ? 0 : (performance.now() - startedAt) / 1000)

function withResolvers<Value>(): { promise: Promise<Value>; resolve: (value: Value) => void } {
  let resolve: (value: Value) => void = () => {}
  const promise = new Promise<Value>((settle) => {
    resolve = settle
  })
  return { promise, resolve }
}
