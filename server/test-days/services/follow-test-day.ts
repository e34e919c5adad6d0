import { setTimeout as wait } from 'node:timers/promises'
import type { Context } from '../../context/context.ts'
import { isUnreachable } from '../../db/database-errors.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { requireTestDay } from './running-tests.ts'

/** It ends after so long, and who follows asks anew: so that a session or scope that has ended is noticed. */
const LASTS_MS = 600_000
/** Changes that come closer together are told as one. */
const GATHER_MS = 250
/** So often it is looked whether whoever follows may follow still. */
const LOOK_MS = 10_000

/**
 * Tells of every change on a test day: what runs there, its bookings and sheets, by whichever server process.
 * In: the test day, refused where it is out of scope; who asks now, null once they are signed out or their account was
 * disabled; a signal that nobody follows any more.
 * Out: one (empty) item at once and for each change, until the signal, the server's end or ten minutes, or until they may
 * not see the test day any more, which is looked at before every item and every ten seconds. A database that is lost ends nothing.
 */
export async function followTestDay(
  context: Context,
  actor: Actor,
  testDayId: string,
  { actorNow, ended }: { actorNow: () => Promise<Actor | null>; ended: AbortSignal },
): Promise<AsyncGenerator<void, void>> {
  await requireTestDay(context, actor, testDayId)
  const mayFollow = async () => {
    const now = await actorNow()
    if (now) await requireTestDay(context, now, testDayId)
    return now !== null
  }
  const over = AbortSignal.any([ended, AbortSignal.timeout(LASTS_MS), context.signals.closing])
  return changesOf(context, testDayId, { mayFollow, over })
}

async function* changesOf(
  context: Context,
  testDayId: string,
  { mayFollow, over }: { mayFollow: () => Promise<boolean>; over: AbortSignal },
): AsyncGenerator<void, void> {
  let isDue = true
  let wake = () => {}
  const stop = context.signals.onTestDay(testDayId, () => {
    isDue = true
    wake()
  })
  over.addEventListener('abort', () => wake())
  const look = setInterval(() => wake(), LOOK_MS)
  try {
    while (!over.aborted && (await mayFollow().catch(isUnreachable))) {
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
    clearInterval(look)
    stop()
  }
}
