import { findDependents } from '../../db/assessments.db.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockSoldiers } from '../../db/locks.db.ts'
import type { Note } from '../record/recorded.ts'
import { settleSoldier } from './settle-soldier.ts'

/** Something changed that the judgement of a soldier's sheets hangs on. */
export interface Disturbance {
  readonly soldierId: string
  /** Sheets of the soldier that just arrived, were amended or decided about. */
  readonly newSheets?: readonly string[]
  /** From this day on the soldier may be certified, suspended or appointed otherwise than before, as grader or sponsor. */
  readonly qualifiesAnewFrom?: string
}

/**
 * Brings everything derived up to date after a change, in its transaction: judges the soldiers' sheets again, keeps
 * standings and tallies, and goes on to the candidates whose graders and sponsors were certified or not by it. A sheet
 * only ever hangs on earlier ones, so this comes to an end.
 */
export async function settle(
  tx: Transaction,
  catalogue: Catalogue,
  now: Date,
  disturbances: readonly Disturbance[],
  note: Note,
): Promise<void> {
  const waiting = new Map(disturbances.map((one) => [one.soldierId, one]))
  for (const [soldierId, disturbance] of waiting) {
    waiting.delete(soldierId)
    const awardsChangedFrom = await settleSoldier(tx, catalogue, now, soldierId, new Set(disturbance.newSheets), note)
    const from = earliest(awardsChangedFrom, disturbance.qualifiesAnewFrom)
    if (from === undefined) continue
    const dependents = await findDependents(tx, soldierId, from)
    if (dependents.length > 0) await lockSoldiers(tx, dependents)
    for (const id of dependents) if (!waiting.has(id)) waiting.set(id, { soldierId: id })
  }
}

function earliest(a: string | undefined, b: string | undefined): string | undefined {
  if (a === undefined || b === undefined) return a ?? b
  return a < b ? a : b
}
