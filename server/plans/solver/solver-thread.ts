import { parentPort } from 'node:worker_threads'
import type { PlanProblem, Solution } from '../../domain/plans/problem.ts'
import { solveProblem } from './solve-problem.ts'

/** What the thread is given. */
export interface ThreadJob {
  readonly problem: PlanProblem
  readonly seconds: number
  /** One number; anything but 0 means stop. */
  readonly stop: SharedArrayBuffer
}

/** What it says. */
export type ThreadWord =
  | { readonly kind: 'better'; readonly placed: number }
  | { readonly kind: 'found' | 'done'; readonly solution: Solution }
  | { readonly kind: 'failed'; readonly why: string }

const say = (word: ThreadWord) => parentPort!.postMessage(word)

/* The thread that solves: one problem after the other, as they come. */
parentPort!.on('message', async ({ problem, seconds, stop }: ThreadJob) => {
  const flag = new Int32Array(stop)
  try {
    const solution = await solveProblem(problem, {
      seconds,
      shouldStop: () => Atomics.load(flag, 0) !== 0,
      onBetter: (pairs) => say({ kind: 'better', placed: pairs.length }),
      onFound: (found) => say({ kind: 'found', solution: found }),
    })
    say({ kind: 'done', solution })
  } catch (error) {
    say({ kind: 'failed', why: error instanceof Error ? error.message : String(error) })
  }
})
