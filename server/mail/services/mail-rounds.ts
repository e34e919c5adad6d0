import type { Context } from '../../context/context.ts'
import { serverRestMs } from '../../domain/mail/next-try.ts'
import { deliverMail } from './deliver-mail.ts'
import { queueMornings } from './queue-mornings.ts'
import { queueNews } from './queue-news.ts'

/** Mornings are looked for less often than news: it takes a look at every account. */
const MORNINGS_MS = 5 * 60_000

/**
 * A function that does what is due: queues news and the mails of the morning, and sends. It never throws; `onFault` is told. A mail
 * server that cannot be used is left alone for longer each time, up to half an hour; another server process finds that out by itself.
 */
export function mailRounds(context: Context, onFault: (error: unknown) => void): () => Promise<void> {
  let mornings = 0
  let failures = 0
  let restsUntil = 0
  return async () => {
    const now = context.clock().getTime()
    try {
      await queueNews(context)
      if (now >= mornings + MORNINGS_MS) {
        await queueMornings(context)
        mornings = now
      }
      if (now < restsUntil) return
      failures = (await deliverMail(context, onFault)) ? 0 : failures + 1
      restsUntil = failures === 0 ? 0 : context.clock().getTime() + serverRestMs(failures)
    } catch (error) {
      onFault(error)
    }
  }
}
