import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { PlanProgress } from '../../contract/plans/plans.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { judgeAnswer } from '../../domain/plans/judge-answer.ts'
import { beatPlan, type PlanAsked, readLastEntry, storeAnswer, storeFailure, storeProblem } from '../db/plans.db.ts'
import { SolverQueue } from '../solver/solver-queue.ts'
import { workOf } from './work-of.ts'

/** Plans that are worked out after the request that asked for them was answered. */
export interface PlanRuns {
  start(id: string, actor: Actor, asked: PlanAsked): void
  /** Waits until a plan is worked out, well or not. */
  ended(id: string): Promise<void>
  stop(): Promise<void>
}

const BEAT_MS = 400

/** Works plans out one after the other; what fails is told, and the plan says so. */
export function planRuns(context: Context, onError: (error: unknown) => void): PlanRuns {
  const queue = new SolverQueue()
  const running = new Map<string, Promise<void>>()

  async function run(id: string, actor: Actor, asked: PlanAsked): Promise<void> {
    let progress: () => PlanProgress | null = () => null
    let stop = () => {}
    let isStopAsked = false
    const pulse = setInterval(() => {
      beatPlan(context.db, id, progress()).then(
        (toStop) => {
          if (toStop && !isStopAsked) stop()
          isStopAsked ||= toStop
        },
        () => {}, // The work itself finds out when the database is gone.
      )
    }, BEAT_MS)
    try {
      const scope = await scopeFor(context, actor)
      const now = { entry: await readLastEntry(context.db), at: context.clock() }
      const stated = await workOf(asked.kind).state(context, actor, scope, asked)
      await storeProblem(context.db, id, stated.problem, now)
      const ticket = queue.add(stated.problem, asked.options.seconds)
      progress = () => ticket.progress()
      stop = () => ticket.stop()
      if (isStopAsked) stop()
      const outcome = await ticket.outcome
      if (outcome.state === 'failed') {
        await storeFailure(context.db, id, outcome.why, outcome.seconds)
        return
      }
      const { state, solution, seconds } = outcome
      const { broken } = judgeAnswer(stated.problem, solution.pairs)
      if (broken.length > 0) throw new Error(`An answer that cannot be: ${broken.join(' ')}`)
      await storeAnswer(context.db, id, { state, seconds, levels: solution.levels, answer: stated.answer(solution) })
    } catch (error) {
      onError(error)
      const failure =
        'The plan could not be worked out. Ask for it again; if that does not help, tell who runs the server.'
      await storeFailure(context.db, id, failure, 0).catch(onError)
    } finally {
      clearInterval(pulse)
      running.delete(id)
    }
  }

  return {
    start(id, actor, asked) {
      running.set(id, run(id, actor, asked))
    },
    ended: async (id) => running.get(id),
    async stop() {
      await queue.close()
      await Promise.allSettled(running.values())
    },
  }
}
