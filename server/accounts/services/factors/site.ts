import { conflict } from '../../../errors.ts'

/** Where browsers find this server, as passkeys are bound to it (WebAuthn: origin, and the host as RP ID). */
export interface Site {
  readonly origin: string
  readonly host: string
}

/** Refuses passkeys where the server does not know by what name people open it. */
export function requireSite(site: Site | null): Site {
  if (site) return site
  throw conflict(
    'no-passkeys-here',
    'Passkeys need a server that is opened by its own name, over TLS. Use an authenticator app, or have an administrator set REVIEWSTAND_ADDRESS.',
  )
}
