import { catalogueCache } from '../db/catalogue.db.ts'
import type { Database } from '../db/client.ts'
import type { Context } from './context.ts'

/** What services work with, on one database. */
export function createContext(options: { db: Database; clock: () => Date; timeZone: string }): Context {
  return { ...options, catalogue: catalogueCache() }
}
