import type { Context } from '../../context/context.ts'
import type { MailOutcome, MailPost } from '../../context/mail-post.ts'
import { inTransaction } from '../../db/transaction.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { isTooOld, nextTry } from '../../domain/mail/next-try.ts'
import { writeLetter } from '../../domain/mail/write-letter.ts'
import { type Addressee, readAddressee, refuseAddress, tellLapses } from '../db/mail-addresses.db.ts'
import { type ClaimedMail, claimMail, endClaim, type MailEnd } from '../db/mail-queue.db.ts'
import { composeLetter } from './letters/compose-letter.ts'

/** Longer than sending one takes at most. Whoever died meanwhile loses the claim, and the mail is sent by another. */
const CLAIM_MS = 10 * 60_000

/**
 * Sends what is due, one after the other, until nothing is or the mail server cannot be used. A mail is claimed before it is sent
 * and marked after; where a server dies between the two it is sent once more under the same Message-ID, never lost.
 * Out: whether the mail server can be used. In: what to do with a fault of our own in a mail.
 */
export async function deliverMail(context: Context, onFault: (error: unknown) => void): Promise<boolean> {
  const { mail: post, db, clock } = context
  if (post === null) return true
  for (;;) {
    const now = clock()
    const mail = await claimMail(db, now, new Date(now.getTime() + CLAIM_MS))
    if (mail === null) return true
    if (!(await deliverOne(context, post, mail, onFault))) return false
  }
}

/** Out: false where the mail server cannot be used. */
async function deliverOne(
  context: Context,
  post: MailPost,
  mail: ClaimedMail,
  onFault: (error: unknown) => void,
): Promise<boolean> {
  const { db, clock, timeZone } = context
  const at = clock()
  const here = { today: dayInZone(at.getTime(), timeZone), timeZone }
  const addressee = await readAddressee(db, here, mail.accountId)
  const to = mail.toAddress ?? (addressee && mayGet(mail, addressee) ? addressee.address : null)
  const composed = to === null ? null : await composeSafely(context, mail, addressee ?? NOBODY(mail), onFault)
  if (to === null || composed === null) {
    await endClaim(db, mail, { state: to === null ? 'dropped' : 'empty', at })
    return true
  }
  if (composed === 'fault') {
    await endClaim(db, mail, later(mail, at, 'Reviewstand could not write it; its log says why.'))
    return true
  }
  const { subject } = composed.letter
  const outcome = await post.send({ id: mail.id, to, subject, ...writeLetter(composed.letter, post.origin), at })
  await inTransaction(db, async (tx) => {
    if (!(await endClaim(tx, mail, endOf(outcome, mail, at)))) return
    if (outcome.outcome === 'accepted' && composed.lapsesThrough)
      await tellLapses(tx, mail.accountId, composed.lapsesThrough)
    if (outcome.outcome === 'refused' && outcome.isAddress) await refuseAddress(tx, mail.accountId, to, at)
  })
  return !(outcome.outcome === 'later' && outcome.isServer)
}

/** Until an address is confirmed, and once it was refused, only a code goes there. */
const mayGet = ({ kind }: ClaimedMail, { confirmedAt, refusedAt }: Addressee): boolean =>
  kind === 'code' || (confirmedAt !== null && refusedAt === null)

/** The address before is told that it is one no more also where the account has none now. */
const NOBODY = ({ accountId }: ClaimedMail): Addressee => ({
  accountId,
  name: '',
  roles: [],
  soldierId: null,
  unitId: null,
  address: '',
  confirmedAt: null,
  refusedAt: null,
  choices: {},
  toldLapsesThrough: null,
  zone: 'UTC',
})

/** A mail that we cannot write must not keep the others back. */
async function composeSafely(
  context: Context,
  mail: ClaimedMail,
  addressee: Addressee,
  onFault: (error: unknown) => void,
): Promise<Awaited<ReturnType<typeof composeLetter>> | 'fault'> {
  try {
    return await composeLetter(context, mail, addressee)
  } catch (error) {
    onFault(error)
    return 'fault'
  }
}

function endOf(outcome: MailOutcome, mail: ClaimedMail, at: Date): MailEnd {
  if (outcome.outcome === 'accepted') return { state: 'sent', at }
  if (outcome.outcome === 'refused') return { state: 'failed', at, problem: outcome.problem }
  if (!outcome.isServer) return later(mail, at, outcome.problem)
  // Not the mail's fault: it waits as it is, and its attempts are not counted.
  return isTooOld(at.getTime(), mail.queuedAt.getTime())
    ? { state: 'failed', at, problem: outcome.problem }
    : { state: 'waiting', dueAt: mail.dueAt, attempts: mail.attempts, problem: outcome.problem }
}

function later(mail: ClaimedMail, at: Date, problem: string): MailEnd {
  const attempts = mail.attempts + 1
  const next = nextTry(attempts, at.getTime(), mail.queuedAt.getTime())
  if (next === null) return { state: 'failed', at, problem }
  return { state: 'waiting', dueAt: new Date(next), attempts, problem }
}
