/** Why this address opens without a network, or does not; '' when it does. Browsers give no offline mode over plain HTTP from another machine. */
export const sayOfflineMode = (): string => {
  if (!window.isSecureContext) {
    return 'This address is not served by TLS, so the browser does not open it without a network. Marks are kept on this phone all the same, but keep the page open. The administrator turns TLS on with a certificate (README, Settings) or a proxy.'
  }
  if (!('serviceWorker' in navigator)) {
    return 'This browser does not open the app without a network (a private window, perhaps). Keep the page open while there is no signal, or use another browser.'
  }
  return ''
}
