import { PUSH_TAKEN_FOR, subscribeToPush, unsubscribeFromPush } from '../api/notices/push.ts'

/** Whether this browser can take notifications: `no`; `refused` by whoever uses it; or `yes`. */
export const canTakePush = (): 'yes' | 'no' | 'refused' => {
  if (!('serviceWorker' in navigator) || !('PushManager' in window) || !('Notification' in window)) return 'no'
  return Notification.permission === 'denied' ? 'refused' : 'yes'
}

const workerOf = async (): Promise<ServiceWorkerRegistration | undefined> =>
  'serviceWorker' in navigator ? await navigator.serviceWorker.getRegistration() : undefined

const tell = async (subscription: PushSubscription) => {
  const { endpoint, keys = {} } = subscription.toJSON()
  return subscribeToPush({ endpoint: endpoint ?? '', keys: { p256dh: keys.p256dh ?? '', auth: keys.auth ?? '' } })
}

/** Thrown with what to do, where the browser takes none. */
class PushRefusedError extends Error {}

/** Asks the browser for leave, and has notifications sent to it. Throws where one of the two does not come about. */
export const takePush = async (accountId: string, publicKey: string): Promise<void> => {
  if ((await Notification.requestPermission()) !== 'granted') {
    throw new PushRefusedError(
      'The browser was told not to show notifications. Allow them in its settings for this site.',
    )
  }
  const worker = await workerOf()
  if (!worker) throw new PushRefusedError('The app is not on this device yet. Load the page again and try once more.')
  try {
    const subscription = await worker.pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: publicKey })
    await tell(subscription)
  } catch (cause) {
    if (!(cause instanceof DOMException)) throw cause
    throw new PushRefusedError('The browser’s push service did not answer. Try again with a network.', { cause })
  }
  localStorage.setItem(PUSH_TAKEN_FOR, accountId)
}

/** Has no more notifications sent to this browser. */
export const leavePush = async (): Promise<void> => {
  localStorage.removeItem(PUSH_TAKEN_FOR)
  const subscription = await (await workerOf())?.pushManager?.getSubscription()
  await subscription?.unsubscribe()
}

/** Ends them at the server and in the browser. */
export const endPush = async (): Promise<void> => {
  await unsubscribeFromPush()
  await leavePush()
}

/** After somebody signed in again in this browser: the notifications they take here go on in the new session. */
export const renewPush = async (): Promise<void> => {
  const subscription = await (await workerOf())?.pushManager?.getSubscription()
  if (subscription) await tell(subscription)
}
