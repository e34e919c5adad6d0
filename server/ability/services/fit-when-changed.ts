import { setTimeout } from 'node:timers/promises'
import type { Context } from '../../context/context.ts'
import { readRecordState } from '../db/histories.db.ts'
import { refreshFits } from './refresh-fits.ts'

/** While sheets come in one after the other it waits for a pause, but not for longer. */
const LONGEST_WAIT_MS = 60_000

/**
 * Fits at once, and again whenever something was entered since: after a pause in what comes in, and not sooner than `restMs`
 * after the last fit, unless the counted sheets have doubled. Never ends by itself.
 * @param stillLocked fails when another process may be fitting
 */
export async function fitWhenChanged(
  context: Pick<Context, 'db' | 'clock' | 'catalogue'>,
  { lookMs, restMs }: { readonly lookMs: number; readonly restMs: number },
  stillLocked: () => Promise<unknown>,
): Promise<never> {
  let fitted = { entry: '', sheets: 0 }
  let seen = fitted
  let [endedAt, changedAt] = [Number.NEGATIVE_INFINITY, performance.now()]
  for (let isFirst = true; ; isFirst = false) {
    await stillLocked()
    const now = await readRecordState(context.db)
    const isQuiet = now.entry === seen.entry || performance.now() - changedAt > LONGEST_WAIT_MS
    if (seen.entry === fitted.entry && now.entry !== fitted.entry) changedAt = performance.now()
    seen = now
    const hasRested = performance.now() - endedAt >= restMs || now.sheets >= 2 * fitted.sheets
    if (isFirst || (now.entry !== fitted.entry && isQuiet && hasRested)) {
      await refreshFits(context)
      fitted = now
      endedAt = performance.now()
    }
    await setTimeout(lookMs)
  }
}
