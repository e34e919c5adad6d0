import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { FirstStepName, FirstSteps } from '../../contract/first-steps/first-steps.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readSteps, setSkipped } from '../db/first-steps.db.ts'

/** What a unit needs before its first test day, in order, and how far this one is. */
export function getFirstSteps(context: Context, actor: Actor): Promise<FirstSteps> {
  requireAction(actor, 'manage-people')
  return stepsOf(context.db)
}

/** Leaves a step out, for a unit that does without it, or takes it up again. */
export async function skipStep(
  context: Context,
  actor: Actor,
  step: FirstStepName,
  skipped: boolean,
): Promise<FirstSteps> {
  requireAction(actor, 'manage-people')
  return recorded(context, actor, async (tx, note) => {
    if (await setSkipped(tx, step, skipped)) {
      note({ action: 'first-step.skipped', subject: { kind: 'first-step', id: null }, after: { step, skipped } })
    }
    return stepsOf(tx)
  })
}

async function stepsOf(tx: Transaction): Promise<FirstSteps> {
  const steps = (await readSteps(tx)).map((row) => ({ ...row, done: row.count > 0 }))
  return { steps, complete: steps.every(({ done, skipped }) => done || skipped) }
}
