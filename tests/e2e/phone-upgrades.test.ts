import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { UPGRADES, type Upgradable } from '../../web/device/store/upgrades.ts'
import { openBrowser } from '../support/browser.ts'
import {
  atCall,
  buildFieldWorld,
  type FieldWorld,
  markCorrect,
  newPhone,
  openDesk,
  pageOn,
  sheetsOn,
  signInOn,
  startSheet,
} from './field-world.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser?.close())

interface Layout {
  readonly key: string | string[] | null
  readonly index?: string
}

const FIRST: Record<string, Layout> = {
  sheets: { key: ['accountId', 'id'], index: 'accountId' },
  days: { key: 'accountId' },
  opened: { key: ['accountId', 'day'] },
  standards: { key: ['code', 'version'] },
}
/** The stores of each version as it was given out. A version that has been out is never changed here; a new one is added. */
const GIVEN_OUT: readonly Record<string, Layout>[] = [
  FIRST,
  { ...FIRST, account: { key: null } },
  { ...FIRST, account: { key: null }, deeds: { key: ['accountId', 'id'], index: 'accountId' } },
  {
    ...FIRST,
    account: { key: null },
    deeds: { key: ['accountId', 'id'], index: 'accountId' },
    studies: { key: ['accountId', 'standard', 'candidateId'] },
  },
  {
    ...FIRST,
    account: { key: null },
    deeds: { key: ['accountId', 'id'], index: 'accountId' },
    studies: { key: ['accountId', 'standard', 'candidateId'] },
    pages: { key: ['accountId', 'page'] },
  },
  {
    ...FIRST,
    account: { key: null },
    deeds: { key: ['accountId', 'id'], index: 'accountId' },
    studies: { key: ['accountId', 'standard', 'candidateId'] },
    pages: { key: ['accountId', 'page'] },
    practices: { key: ['accountId', 'id'], index: 'accountId' },
  },
]

/** What a next version might add. */
const LATER = (database: Upgradable) => {
  database.createObjectStore('later')
}

type Rows = Record<string, { key: string | string[]; value: unknown }[]>

/** Everything the phone keeps, by store. */
const rowsOn = (page: Page): Promise<Rows> =>
  page.evaluate(async () => {
    const done = <Result>(request: IDBRequest<Result>) =>
      new Promise<Result>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result)
        request.onerror = () => reject(request.error)
      })
    const database = await done(indexedDB.open('reviewstand'))
    const rows: Record<string, { key: string | string[]; value: unknown }[]> = {}
    for (const name of database.objectStoreNames) {
      const store = database.transaction(name).objectStore(name)
      const [keys, values] = await Promise.all([done(store.getAllKeys()), done(store.getAll())])
      rows[name] = keys.map((key, at) => ({ key: key as string | string[], value: values[at] }))
    }
    database.close()
    return rows
  })

/** Leaves the phone with the database of an earlier version that holds these rows. */
const leaveWith = (page: Page, version: number, stores: Record<string, Layout>, rows: Rows): Promise<void> =>
  page.evaluate(
    async ({ version, stores, rows }) => {
      const done = (request: IDBRequest) =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result)
          request.onerror = () => reject(request.error)
        })
      await done(indexedDB.deleteDatabase('reviewstand'))
      const request = indexedDB.open('reviewstand', version)
      request.onupgradeneeded = () => {
        for (const [name, { key, index }] of Object.entries(stores)) {
          const store = request.result.createObjectStore(name, key === null ? {} : { keyPath: key })
          if (index) store.createIndex('account', index)
        }
      }
      const database = (await done(request)) as IDBDatabase
      for (const [name, { key: keyPath }] of Object.entries(stores)) {
        const store = database.transaction(name, 'readwrite').objectStore(name)
        for (const { key, value } of rows[name] ?? [])
          await done(keyPath === null ? store.put(value, key) : store.put(value))
      }
      database.close()
    },
    { version, stores, rows },
  )

/** The stores that a phone has, with what each is kept under. */
const layoutOn = (page: Page, name: string): Promise<Record<string, Layout>> =>
  page.evaluate(async (databaseName) => {
    const request = indexedDB.open(databaseName)
    const database = await new Promise<IDBDatabase>((resolve) => {
      request.onsuccess = () => resolve(request.result)
    })
    const layout: Record<string, { key: string | string[] | null; index?: string }> = {}
    for (const store of database.objectStoreNames) {
      const { keyPath, indexNames } = database.transaction(store).objectStore(store)
      layout[store] = { key: keyPath, ...(indexNames.contains('account') ? { index: 'accountId' } : {}) }
    }
    database.close()
    return layout
  }, name)

describe('the database of a phone', () => {
  let world: FieldWorld
  let phone: BrowserContext
  let page: Page
  beforeEach(async () => {
    world = await buildFieldWorld()
    phone = await newPhone(browser)
    await signInOn(phone, world)
    page = await pageOn(phone)
    return async () => {
      await phone.close()
      await world.close()
    }
  })

  it.each(GIVEN_OUT.map((stores, at) => [at + 1, stores] as const))(
    'of version %i is brought up to date, and a test under way goes on where it was',
    async (version, stores) => {
      await openDesk(page, world)
      await startSheet(page)
      await markCorrect(page, 1, 4)
      await atCall(page, 5)
      const kept = await rowsOn(page)
      expect(kept.sheets).toHaveLength(1)
      const bare = await phone.newPage()
      await page.close()
      await bare.goto(`${world.url}/api/health`)
      await leaveWith(bare, version, stores, kept)
      const before = await rowsOn(bare)
      await bare.close()

      page = await pageOn(phone)
      await page.goto(`${world.url}/grade/${world.bookings[0]}`)
      await atCall(page, 5)
      const after = await rowsOn(page)
      for (const store of ['sheets', 'opened', 'standards']) expect(after[store]).toEqual(before[store])
      expect(await layoutOn(page, 'reviewstand')).toEqual(GIVEN_OUT.at(-1))
      await markCorrect(page, 5, 5)
      await atCall(page, 6)
      expect(await sheetsOn(page)).toEqual([{ id: world.bookings[0], state: 'running' }])
    },
  )

  it('gets to a later version from every one before, step by step', async () => {
    expect(GIVEN_OUT).toHaveLength(UPGRADES.length)
    await page.goto(`${world.url}/api/health`)
    const steps = [...UPGRADES, LATER].map((step) => String(step))
    for (let from = 0; from < steps.length; from++) {
      const name = `from ${from}`
      for (const version of [from, steps.length].filter((each) => each > 0)) {
        await page.evaluate(`new Promise((resolve, reject) => {
          const request = indexedDB.open(${JSON.stringify(name)}, ${version})
          request.onupgradeneeded = ({ oldVersion }) => {
            for (const step of [${steps.join(',')}].slice(oldVersion, ${version})) step(request.result)
          }
          request.onsuccess = () => resolve(request.result.close())
          request.onerror = () => reject(request.error)
        })`)
      }
      expect(await layoutOn(page, name)).toEqual({ ...GIVEN_OUT.at(-1), later: { key: null } })
    }
  })
})
