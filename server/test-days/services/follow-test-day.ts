import { setTimeout as wait } from 'node:timers/promises'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { requireTestDay } from './running-tests.ts'

/** It ends after so long, and who follows asks anew: so that a session or scope that has ended is noticed. */
const LASTS_MS = 600_000
/** Changes that come closer together are told as one. */
const GATHER_MS = 250

/**
 * Tells of every change on a test day: what runs there, its bookings and sheets, by whichever server process.
 * In: the test day, refused where it is out of scope; a signal that nobody follows any more.
 * Out: one (empty) item at once and for each change, until the signal, the server's end or ten minutes.
 */
export async function followTestDay(
  context: Context,
  actor: Actor,
  testDayId: string,
  ended: AbortSignal,
): Promise<AsyncGenerator<void, void>> {
  await requireTestDay(context, actor, testDayId)
  return changesOf(context, testDayId, AbortSignal.any([ended, AbortSignal.timeout(LASTS_MS), context.signals.closing]))
}

async function* changesOf(context: Context, testDayId: string, over: AbortSignal): AsyncGenerator<void, void> {
  let isDue = true
  let wake = () => {}
  const stop = context.signals.onTestDay(testDayId, () => {
    isDue = true
    wake()
  })
  over.addEventListener('abort', () => wake())
  try {
    while (!over.aborted) {
      if (isDue) {
        isDue = false
        yield
        await wait(GATHER_MS, undefined, { signal: over }).catch(() => {})
      } else {
        await new Promise<void>((resolve) => {
          wake = resolve
          if (isDue || over.aborted) resolve()
        })
      }
    }
  } finally {
    stop()
  }
}
