import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import type { PushSettingBody, PushState, PushSubscriptionBody } from '../../../contract/notices/push.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { can } from '../../../domain/access/permissions.ts'
import { conflict, invalid } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import {
  dropSubscription,
  keepSubscription,
  listSubscriptions,
  readPushSetting,
  writePushSetting,
} from '../../db/push.db.ts'

/** Whether notifications are on, with what a browser subscribes, and which of one's browsers take them. */
export async function getPush(context: Context, actor: Actor, sessionHash: Buffer): Promise<PushState> {
  const { isOn, contact } = await readPushSetting(context.db)
  const browsers = await listSubscriptions(context.db, actor.accountId, sessionHash)
  const here = browsers.find(({ isHere }) => isHere)
  return {
    isOn: isOn && context.push !== null,
    publicKey: context.push?.publicKey ?? null,
    contact: can(actor, 'manage-accounts') ? contact : null,
    here: here?.since.toISOString() ?? null,
    elsewhere: browsers.filter(({ isHere }) => !isHere).length,
  }
}

/** Turns notifications on or off for the whole unit. */
export async function changePush(context: Context, actor: Actor, body: PushSettingBody): Promise<void> {
  requireAction(actor, 'manage-accounts')
  if (body.isOn && context.push === null) throw sendsNone()
  await recorded(context, actor, async (tx, note) => {
    const before = await readPushSetting(tx)
    await writePushSetting(tx, body)
    const subject = { kind: 'account', id: actor.accountId } as const
    note({ action: 'account.push-set', subject, before, after: body })
  })
}

/** Has notifications sent to the browser that asks, until one signs out in it. */
export async function subscribe(
  context: Context,
  actor: Actor,
  sessionHash: Buffer,
  { endpoint, keys }: PushSubscriptionBody,
): Promise<void> {
  if (context.push === null) throw sendsNone()
  const wrong = context.push.problemOf({ endpoint, ...keys })
  if (wrong === 'endpoint') {
    throw invalid('push-endpoint', '/endpoint', 'A push service has an https address on the open Internet.')
  }
  if (wrong !== null) throw invalid('push-key', '/keys/p256dh', 'Send the key as the browser gave it.')
  if (!(await readPushSetting(context.db)).isOn) {
    throw conflict('push-off', 'Notifications are off in this unit. An administrator can turn them on.')
  }
  const { accountId } = actor
  await context.db.$transaction((tx) =>
    keepSubscription(tx, { accountId, sessionHash, endpoint, ...keys, at: context.clock() }),
  )
}

/** Ends notifications to the browser that asks. */
export async function unsubscribe(context: Context, sessionHash: Buffer): Promise<void> {
  await dropSubscription(context.db, sessionHash)
}

const sendsNone = () => conflict('push-not-here', 'This server sends no notifications.')
