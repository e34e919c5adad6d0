import type { CatalogueCache } from '../db/catalogue.db.ts'
import type { Database } from '../db/client.ts'
import type { Backups } from './backups.ts'
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
}
