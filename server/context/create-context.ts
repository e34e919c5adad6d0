import { catalogueCache } from '../db/catalogue.db.ts'
import type { Database } from '../db/client.ts'
import type { Backups } from './backups.ts'
import type { Context } from './context.ts'
import { noBackups } from './no-backups.ts'
import { type Signals, silentSignals } from './signals.ts'

const DEFAULT_APPEAL_DAYS = 14
const DEFAULT_MOST_CANDIDATES = 3
const DEFAULT_IMPORT_MEGABYTES = 50

/** What services work with, on one database. */
export function createContext(options: {
  db: Database
  clock: () => Date
  timeZone: string
  demo?: boolean
  appealDays?: number | undefined
  mostCandidates?: number | undefined
  signals?: Signals | undefined
  importMegabytes?: number | undefined
  backups?: Backups | undefined
}): Context {
  return {
    appealDays: DEFAULT_APPEAL_DAYS,
    mostCandidates: DEFAULT_MOST_CANDIDATES,
    demo: false,
    signals: silentSignals,
    ...options,
    backups: options.backups ?? noBackups,
    importMegabytes: options.importMegabytes ?? DEFAULT_IMPORT_MEGABYTES,
    catalogue: catalogueCache(),
  }
}
