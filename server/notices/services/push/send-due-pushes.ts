import type { Context } from '../../../context/context.ts'
import type { Delivery, Push } from '../../../context/push.ts'
import { PUSH_WORDS, waitAfter } from '../../../domain/notices/push-kind.ts'
import { type DuePush, finishPush, forgetSubscription, postponePush, takeDuePushes } from '../../db/push.db.ts'

/** So many are sent side by side. */
const AT_ONCE = 20
/** Whoever takes messages and dies over them has them sent after so long. */
const TAKEN_MS = 120_000
/** What could not be sent for so long is no news any more. */
const NEWS_MS = 86_400_000

/**
 * Sends what is due, each once: what was taken leaves the queue, what could not be sent is tried again later, and a
 * subscription that its push service has forgotten is forgotten here. Out: how many were tried.
 */
export async function sendDuePushes(context: Context): Promise<number> {
  const { push } = context
  if (push === null) return 0
  const now = context.clock()
  const due = await takeDuePushes(context.db, now, new Date(now.getTime() + TAKEN_MS), AT_ONCE)
  await Promise.all(due.map(async (message) => settle(context, message, await deliver(push, message, now))))
  return due.length
}

const deliver = (push: Push, { kind, contact, ...to }: DuePush, now: Date): Promise<Delivery> =>
  push.deliver(to, {
    content: { title: 'Reviewstand', body: PUSH_WORDS[kind], path: '/notices', kind },
    topic: kind,
    contact,
    now,
  })

async function settle(context: Context, message: DuePush, delivery: Delivery): Promise<void> {
  const now = context.clock()
  switch (delivery.kind) {
    case 'gone':
      return forgetSubscription(context.db, message)
    case 'later': {
      if (now.getTime() - message.madeAt.getTime() > NEWS_MS) return finishPush(context.db, message, now)
      const wait = Math.max(delivery.afterMs, waitAfter(message.tries))
      return postponePush(context.db, message, new Date(now.getTime() + wait))
    }
    default:
      return finishPush(context.db, message, now)
  }
}
