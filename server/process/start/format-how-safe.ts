import { type Config, isLoopback } from '../../config/config.ts'

/** What whoever starts the server should know of the way between it and the browsers; empty where all is well. */
export function formatHowSafe(
  { host, tls, trustProxy }: Pick<Config, 'host' | 'tls' | 'trustProxy'>,
  now: Date,
): string[] {
  if (tls !== null && tls.validTo < now) {
    return [
      `The certificate in TLS_CERT_FILE ended on ${tls.validTo.toISOString().slice(0, 10)}; browsers refuse it. Renew it.`,
    ]
  }
  if (tls !== null || trustProxy.length > 0 || isLoopback(host)) return []
  return [
    'Attention: without TLS passwords and grades travel readable for everybody on the way, and browsers give no offline mode.',
    'Set TLS_CERT_FILE and TLS_KEY_FILE, or put a proxy with TLS in front and set TRUST_PROXY to its address.',
  ]
}
