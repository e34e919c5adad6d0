/** Tells every window of this device that something kept here has changed. */
const CHANNEL = 'reviewstand.device'

const here = new EventTarget()
const elsewhere = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(CHANNEL)
elsewhere?.addEventListener('message', () => here.dispatchEvent(new Event('changed')))

/** What is kept on this device has changed. */
export const notifyChanged = (): void => {
  here.dispatchEvent(new Event('changed'))
  elsewhere?.postMessage('changed')
}

/** Calls back whenever this or another window changed what is kept. Out: stops that. */
export const onChanged = (callback: () => void): (() => void) => {
  here.addEventListener('changed', callback)
  return () => here.removeEventListener('changed', callback)
}
