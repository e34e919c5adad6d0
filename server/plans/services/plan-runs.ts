import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { judgeAnswer } from '../../domain/plans/judge-answer.ts'
import { beatPlan, type PlanAsked, readLastEntry, storeAnswer, storeFailure, storeProblem } from '../db/plans.db.ts'
import { SolverQueue, type Ticket } from '../solver/solver-queue.ts'
import { workOf } from './work-of.ts'

/** Plans that are worked out after the request that asked for them was answered. */
export interface PlanRuns {
  start(id: string, actor: Actor, asked: PlanAsked): void
  stop(): Promise<void>
}

const BEAT_MS = 400

/** Works plans out one after the other; what fails is told, and the plan says so. */
export function planRuns(context: Context, onError: (error: unknown) => void): PlanRuns {
  const queue = new SolverQueue()
  const running = new Map<string, Promise<void>>()
  return {
    start(id, actor, asked) {
      const work = workOut(context, queue, id, actor, asked)
        .catch(async (error: unknown) => {
          onError(error)
          await storeFailure(context.db, id, FAILED, 0).catch(onError)
        })
        .finally(() => running.delete(id))
      running.set(id, work)
    },
    async stop() {
      await queue.close()
      await Promise.allSettled(running.values())
    },
  }
}

const FAILED = 'The plan could not be worked out. Ask for it again; if that does not help, tell who runs the server.'

async function workOut(
  context: Context,
  queue: SolverQueue,
  id: string,
  actor: Actor,
  asked: PlanAsked,
): Promise<void> {
  const pulse = beating(context, id)
  try {
    const scope = await scopeFor(context, actor)
    const now = { entry: await readLastEntry(context.db), at: context.clock() }
    const stated = await workOf(asked.kind).state(context, actor, scope, asked)
    await storeProblem(context.db, id, stated.problem, now)
    const ticket = queue.add(stated.problem, asked.options.seconds)
    pulse.follow(ticket)
    const outcome = await ticket.outcome
    if (outcome.state === 'failed') {
      await storeFailure(context.db, id, outcome.why, outcome.seconds)
      return
    }
    const { state, solution, seconds } = outcome
    const { broken } = judgeAnswer(stated.problem, solution.pairs)
    if (broken.length > 0) throw new Error(`An answer that cannot be: ${broken.join(' ')}`)
    await storeAnswer(context.db, id, { state, seconds, levels: solution.levels, answer: stated.answer(solution) })
  } finally {
    pulse.end()
  }
}

/** Shows again and again that a server is at a plan, and how far; stops the search once somebody has asked for it. */
function beating({ db }: Context, id: string) {
  let ticket: Ticket | null = null
  let isStopAsked = false
  const pulse = setInterval(() => {
    beatPlan(db, id, ticket?.progress() ?? null).then(
      (toStop) => {
        if (toStop && !isStopAsked) ticket?.stop()
        isStopAsked ||= toStop
      },
      () => {}, // The work itself finds out when the database is gone.
    )
  }, BEAT_MS)
  return {
    follow(one: Ticket) {
      ticket = one
      if (isStopAsked) one.stop()
    },
    end: () => clearInterval(pulse),
  }
}
