import { catalogueCache } from '../db/catalogue.db.ts'
import type { Database } from '../db/client.ts'
import type { Backups } from './backups.ts'
import type { CertificateKey } from './certificate-key.ts'
import type { Context } from './context.ts'
import type { MailPost } from './mail-post.ts'
import type { Push } from './push.ts'
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
  mail?: MailPost | null | undefined
  address?: () => string | null
  secretKey?: Uint8Array | null
  certificateKey?: CertificateKey | undefined
  push?: Push | undefined
  loopbackProviders?: boolean | undefined
}): Context {
  return {
    appealDays: DEFAULT_APPEAL_DAYS,
    mostCandidates: DEFAULT_MOST_CANDIDATES,
    demo: false,
    signals: silentSignals,
    address: () => null,
    secretKey: null,
    ...options,
    backups: options.backups ?? noBackups,
    mail: options.mail ?? null,
    certificateKey: options.certificateKey ?? null,
    push: options.push ?? null,
    loopbackProviders: options.loopbackProviders ?? false,
    importMegabytes: options.importMegabytes ?? DEFAULT_IMPORT_MEGABYTES,
    catalogue: catalogueCache(),
  }
}

/** Of an app that runs without a server process around it: there is no folder, and nothing can be begun. */
const noBackups: Backups = {
  state: async () => ({ schedule: null, folder: '', keep: 0, lastFailure: null, running: null }),
  list: async () => [],
  begin: async () => false,
  open: async () => null,
  close: async () => {},
}
