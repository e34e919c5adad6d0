/** Why this address opens without a network, or does not; '' when it does. Browsers give no offline mode over plain HTTP from another machine. */
export const formatOfflineMode = (): string => {
  if (!window.isSecureContext) {
    return 'This address is not served by TLS, so the browser does not open it without a network. Marks are kept on this phone all the same, but keep the page open. The administrator turns TLS on with a certificate (README, Settings) or a proxy.'
  }
  if (!('serviceWorker' in navigator)) {
    return 'This browser does not open the app without a network (a private window, perhaps). Keep the page open while there is no signal, or use another browser.'
  }
  return ''
}

/** Is the whole app of this version on the device? Then, with a day list, this address opens without a network. */
export const isAppHere = (): boolean => 'serviceWorker' in navigator && navigator.serviceWorker.controller !== null

/** Calls back when the app has come onto the device. Out: stops that. */
export const onAppHere = (callback: () => void): (() => void) => {
  if (!('serviceWorker' in navigator)) return () => undefined
  navigator.serviceWorker.addEventListener('controllerchange', callback)
  return () => navigator.serviceWorker.removeEventListener('controllerchange', callback)
}
