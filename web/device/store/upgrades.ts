/** What a step needs of a database that is being upgraded. */
export type Upgradable = Pick<IDBDatabase, 'createObjectStore'>

/**
 * What each version added to the device's database, in order: the first makes version 1 of nothing. A phone goes through
 * the steps it has not had yet, from whatever version it was left at. A step that has been out is never changed; what is
 * new is a new step, which leaves what is kept as it is.
 */
export const UPGRADES: readonly ((database: Upgradable) => void)[] = [
  (database) => {
    database.createObjectStore('sheets', { keyPath: ['accountId', 'id'] }).createIndex('account', 'accountId')
    database.createObjectStore('days', { keyPath: 'accountId' })
    database.createObjectStore('opened', { keyPath: ['accountId', 'day'] })
    database.createObjectStore('standards', { keyPath: ['code', 'version'] })
  },
  (database) => {
    database.createObjectStore('account')
  },
  (database) => {
    database.createObjectStore('deeds', { keyPath: ['accountId', 'id'] }).createIndex('account', 'accountId')
  },
  (database) => {
    database.createObjectStore('studies', { keyPath: ['accountId', 'standard', 'candidateId'] })
  },
  (database) => {
    database.createObjectStore('pages', { keyPath: ['accountId', 'page'] })
  },
  (database) => {
    database.createObjectStore('practices', { keyPath: ['accountId', 'id'] }).createIndex('account', 'accountId')
  },
]
