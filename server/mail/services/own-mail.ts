import { timingSafeEqual } from 'node:crypto'
import { lockAccount } from '../../accounts/db/account-changes.db.ts'
import { lockUsableAccount } from '../../accounts/db/accounts.db.ts'
import { requirePresentPassword } from '../../accounts/services/present-password.ts'
import { refuseForDemo } from '../../accounts/services/refuse-for-demo.ts'
import { passAttempt } from '../../accounts/services/sessions/attempts.ts'
import type { Visitor } from '../../accounts/services/sessions/visitor.ts'
import type { Context } from '../../context/context.ts'
import type { MailAddressBody, MailChoicesBody, OwnMail } from '../../contract/mail/mail.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { mailKindsFor, timingOf } from '../../domain/mail/mail-kinds.ts'
import { conflict, invalid, notFound, TooManyRequests } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import {
  confirmAddress,
  deleteAddress,
  readAddress,
  readChoices,
  replaceAddress,
  type StoredAddress,
  saveChoice,
  tryCode,
} from '../db/mail-addresses.db.ts'
import { countMails, dropWaiting, queueMail } from '../db/mail-queue.db.ts'
import { hashCode } from './hash-code.ts'

const HOUR_MS = 3_600_000
/** So many codes an account sends in a day, for they go where nobody has asked for mail yet. */
const MOST_CODES = 5
const MOST_TRIES = 5

/** One's own address, and what comes when. */
export async function getOwnMail({ db, mail }: Context, { accountId, roles }: Actor): Promise<OwnMail> {
  const [stored, choices] = await Promise.all([readAddress(db, accountId), readChoices(db, accountId)])
  return {
    on: mail !== null,
    hour: mail?.hour ?? null,
    address: stored?.address ?? null,
    state: stateOf(stored),
    choices: mailKindsFor(roles).map(({ kind, timings }) => ({
      kind,
      timing: timingOf(kind, roles, choices),
      timings: [...timings],
    })),
  }
}

function stateOf(stored: StoredAddress | null): OwnMail['state'] {
  if (stored === null) return 'none'
  if (stored.refusedAt !== null) return 'refused'
  return stored.confirmedAt === null ? 'unconfirmed' : 'confirmed'
}

/** Takes an address in place of the one before, and sends a code to it. The present password is asked for. */
export async function changeAddress(
  context: Context,
  actor: Actor,
  { address, password }: MailAddressBody,
  visitor: Visitor,
): Promise<OwnMail> {
  requireMail(context)
  refuseForDemo(context, actor.name)
  const { hash, counters } = await requirePresentPassword(context, actor, visitor, password, '/password')
  await recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    if (!(await lockUsableAccount(tx, actor.accountId, hash))) throw notFound('account')
    await passAttempt(tx, counters)
    await tellAddressBefore(tx, context, actor, address)
    await replaceAddress(tx, actor.accountId, address, context.clock())
    await sendCode(tx, context, actor)
    note({ action: 'account.mail-address-given', subject: { kind: 'account', id: actor.accountId } })
  })
  return getOwnMail(context, actor)
}

/** Forgets the address; nothing is sent any more. Without one nothing happens. */
export async function removeAddress(context: Context, actor: Actor): Promise<void> {
  await recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    if ((await readAddress(tx, actor.accountId)) === null) return
    await tellAddressBefore(tx, context, actor, null)
    await deleteAddress(tx, actor.accountId)
    note({ action: 'account.mail-address-removed', subject: { kind: 'account', id: actor.accountId } })
  })
}

/** A new code to the address that waits to be confirmed, or was refused. */
export async function sendCodeAnew(context: Context, actor: Actor): Promise<OwnMail> {
  requireMail(context)
  refuseForDemo(context, actor.name)
  await recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    const stored = await readAddress(tx, actor.accountId)
    if (stored === null) throw notFound('mail address')
    if (stateOf(stored) === 'confirmed') throw conflict('mail-confirmed', 'The address is confirmed; it needs no code.')
    await sendCode(tx, context, actor)
    note({ action: 'account.mail-code-sent', subject: { kind: 'account', id: actor.accountId } })
  })
  return getOwnMail(context, actor)
}

/** Takes the code that was sent to the address: from now on mail goes there. */
export async function confirmOwnAddress(context: Context, actor: Actor, code: string): Promise<OwnMail> {
  const known = await tryCode(context.db, actor.accountId, context.clock())
  if (known === null || known.tries > MOST_TRIES) {
    throw invalid('no-code', '/code', 'There is no code that can be used. Have a new one sent, and type that.')
  }
  await recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    const stored = await readAddress(tx, actor.accountId)
    if (stored === null) throw notFound('mail address')
    if (!timingSafeEqual(known.hash, hashCode(code, stored.address))) {
      throw invalid('wrong-code', '/code', 'This is not the code of the latest mail. Look at it again.')
    }
    await confirmAddress(tx, actor.accountId, context.clock())
    note({ action: 'account.mail-address-confirmed', subject: { kind: 'account', id: actor.accountId } })
  })
  return getOwnMail(context, actor)
}

/** Chooses what comes when. What the account's roles have no use for is refused. */
export async function chooseMail(context: Context, actor: Actor, { choices }: MailChoicesBody): Promise<OwnMail> {
  const offered = mailKindsFor(actor.roles)
  choices.forEach(({ kind, timing }, place) => {
    if (offered.some((one) => one.kind === kind && one.timings.includes(timing))) return
    throw invalid(
      'timing-not-offered',
      `/choices/${place}`,
      'This cannot be chosen; GET /api/account/mail says what can.',
    )
  })
  await recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    const before = await readChoices(tx, actor.accountId)
    for (const { kind, timing } of choices) await saveChoice(tx, actor.accountId, kind, timing)
    const after = { ...before, ...Object.fromEntries(choices.map(({ kind, timing }) => [kind, timing])) }
    note({ action: 'account.mail-chosen', subject: { kind: 'account', id: actor.accountId }, before, after })
  })
  return getOwnMail(context, actor)
}

function requireMail({ mail }: Context): void {
  if (mail === null) throw conflict('mail-off', 'This server sends no mail. An administrator can set it up.')
}

async function sendCode(tx: Transaction, { clock }: Context, { accountId }: Actor): Promise<void> {
  const now = clock()
  const DAY_MS = 24 * HOUR_MS
  if ((await countMails(tx, accountId, 'code', new Date(now.getTime() - DAY_MS))) >= MOST_CODES) {
    throw new TooManyRequests(
      'too-many-codes',
      `You had ${MOST_CODES} codes sent within a day. Try again tomorrow, and look among unwanted mail first.`,
      DAY_MS / 1000,
    )
  }
  await queueMail(tx, { accountId, kind: 'code', at: now, dueAt: now })
}

/** Nothing that waits goes to either address; the one before is told, so that nobody takes mail away unseen. */
async function tellAddressBefore(tx: Transaction, { clock }: Context, { accountId }: Actor, next: string | null) {
  const at = clock()
  const before = await readAddress(tx, accountId)
  await dropWaiting(tx, accountId, at)
  if (stateOf(before) !== 'confirmed' || before!.address === next) return
  await queueMail(tx, { accountId, kind: 'address changed', at, dueAt: at, toAddress: before!.address })
}
