import type { CatalogueCache } from '../db/catalogue.db.ts'
import type { Database } from '../db/client.ts'
import type { Backups } from './backups.ts'
import type { CertificateKey } from './certificate-key.ts'
import type { MailPost } from './mail-post.ts'
import type { Push } from './push.ts'
import type { Signals } from './signals.ts'

/** What every service works with. Time comes in as an argument so that tests can set it. */
export interface Context {
  readonly db: Database
  readonly clock: () => Date
  /** IANA zone for units that have none of their own. */
  readonly timeZone: string
  readonly catalogue: CatalogueCache
  /** Whether this is the demo, whose accounts keep their public password. */
  readonly demo: boolean
  /** So many days after a sheet was stored it can be contested. */
  readonly appealDays: number
  /** A sponsor with more candidates at a time has too many, by the unit's own setting. */
  readonly mostCandidates: number
  /** Word from the database that something changed, whichever server process changed it. */
  readonly signals: Signals
  /** So large a file may be that is taken in, in megabytes. */
  readonly importMegabytes: number
  readonly backups: Backups
  /** The way out for mail; null: none is sent. */
  readonly mail: MailPost | null
  /** Where people open the server, as scheme, host and port; null: nobody has said. */
  readonly address: () => string | null
  /** Seals secrets that must be read again; null: this process has none, and seals nothing. */
  readonly secretKey: Uint8Array | null
  /** Signs certificates; null: this process has none, and signs nothing. */
  readonly certificateKey: CertificateKey | null
  /** Null: this server sends no notifications. */
  readonly push: Push | null
  /** Whether a provider of single sign-on on this very machine may go without TLS. */
  readonly loopbackProviders: boolean
}
