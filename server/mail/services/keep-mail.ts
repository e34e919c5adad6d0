import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { FailedMail, MailStatus } from '../../contract/mail/mail.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readAddress } from '../db/mail-addresses.db.ts'
import { dropFailed, listFailed, lockFailed, queueMail, readMailFigures, retryFailed } from '../db/mail-queue.db.ts'

/** How it stands with mail: what waits, what failed, and what stands in the way. */
export async function getMailStatus(context: Context, actor: Actor): Promise<MailStatus> {
  requireAction(actor, 'keep-mail')
  const { problem, problemAt, lastSentAt, ...figures } = await readMailFigures(context.db, context.clock())
  return {
    on: context.mail !== null,
    server: context.mail?.server ?? null,
    sender: context.mail?.sender ?? null,
    ...figures,
    lastSentAt: lastSentAt?.toISOString() ?? null,
    problem: problem !== null && problemAt !== null ? { text: problem, at: problemAt.toISOString() } : null,
  }
}

/** Undelivered mail, the latest first. */
export async function findFailedMails(
  context: Context,
  actor: Actor,
  { limit, after }: { limit: number; after?: string | undefined },
): Promise<{ items: FailedMail[]; next: string | null }> {
  requireAction(actor, 'keep-mail')
  const key = fromCursor(after, ['instant', 'uuid'])
  const page = { limit: limit + 1, after: key && { at: String(key[0]), id: String(key[1]) } }
  const rows = (await listFailed(context.db, page)).map((row) => ({ ...row, failedAt: row.failedAt.toISOString() }))
  return toPage(
    rows,
    limit,
    ({ failedAt, id }) => [failedAt, id],
    (row) => row,
  )
}

/** Puts a mail that was given up back into the queue. */
export async function retryMail(context: Context, actor: Actor, id: string): Promise<MailStatus> {
  requireAction(actor, 'keep-mail')
  await recorded(context, actor, async (tx, note) => {
    const failed = await lockFailed(tx, id)
    if (failed === null) throw notFound('mail')
    if (failed.isRefused && failed.kind !== 'code') {
      throw conflict(
        'address-refused',
        'The address was refused for good. Whoever has it confirms it anew, or gives another.',
      )
    }
    await retryFailed(tx, id, context.clock())
    note({ action: 'mail.retried', subject: { kind: 'mail', id } })
  })
  return getMailStatus(context, actor)
}

/** Takes a mail that was given up off the list. */
export async function dropMail(context: Context, actor: Actor, id: string): Promise<void> {
  requireAction(actor, 'keep-mail')
  await recorded(context, actor, async (tx, note) => {
    if ((await lockFailed(tx, id)) === null) throw notFound('mail')
    await dropFailed(tx, id)
    note({ action: 'mail.dropped', subject: { kind: 'mail', id } })
  })
}

/** Queues a mail to one's own address, to see whether mail goes out. */
export async function sendTestMail(context: Context, actor: Actor): Promise<MailStatus> {
  requireAction(actor, 'keep-mail')
  if (context.mail === null) throw conflict('mail-off', 'This server sends no mail; REVIEWSTAND_SMTP sets it up.')
  const stored = await readAddress(context.db, actor.accountId)
  if (stored?.confirmedAt == null || stored.refusedAt !== null) {
    throw conflict('no-own-address', 'Give your own address under My account, and confirm it; the test goes there.')
  }
  const at = context.clock()
  await queueMail(context.db, { accountId: actor.accountId, kind: 'test', at, dueAt: at })
  return getMailStatus(context, actor)
}
