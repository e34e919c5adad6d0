import { type DBSchema, type IDBPDatabase, openDB, unwrap } from 'idb'
import type { Session } from '#contract/accounts/session.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { DayList } from '#contract/test-days/day-list.ts'
import type { KeptPage } from './kept-page.ts'
import type { KeptPractice } from './kept-practice.ts'
import type { KeptSheet } from './kept-sheet.ts'
import type { KeptStudy } from './kept-study.ts'
import type { PendingAction } from './pending-action.ts'
import { UPGRADES } from './upgrades.ts'

/** The day list of an account as it was last downloaded. */
export interface KeptDay {
  readonly accountId: string
  readonly list: DayList
  /** By the device's clock. */
  readonly fetchedAt: string
}

interface Stores extends DBSchema {
  /** Under `last`: who signed in here last. */
  account: { key: string; value: Session }
  sheets: { key: [accountId: string, id: string]; value: KeptSheet; indexes: { account: string } }
  days: { key: string; value: KeptDay }
  /** Days whose cautions somebody confirmed. */
  opened: { key: [accountId: string, day: string]; value: { accountId: string; day: string; at: string } }
  deeds: { key: [accountId: string, id: string]; value: PendingAction; indexes: { account: string } }
  /** Versions of standards that a list or a sheet names. */
  standards: { key: [code: string, version: number]; value: Standard }
  studies: { key: [accountId: string, standard: string, candidateId: string]; value: KeptStudy }
  pages: { key: [accountId: string, page: string]; value: KeptPage }
  practices: { key: [accountId: string, id: string]; value: KeptPractice; indexes: { account: string } }
}

export type DeviceDatabase = IDBPDatabase<Stores>

let opening: Promise<DeviceDatabase> | null = null

/** The database of this device. What belongs to an account stands under its id, and is read under it only. */
export const deviceDatabase = (): Promise<DeviceDatabase> => {
  opening ??= openDB<Stores>('reviewstand', UPGRADES.length, {
    upgrade(_typed, before, _after, transaction) {
      for (const step of UPGRADES.slice(before)) step(unwrap(transaction).db)
    },
    terminated: () => {
      opening = null
    },
  }).catch((error: unknown) => {
    opening = null
    throw error
  })
  return opening
}

/** Asks the browser not to clear this device's data when space runs short; it may say no. */
export const askToPersist = async (): Promise<boolean> => {
  try {
    return (await navigator.storage?.persist?.()) ?? false
  } catch {
    return false
  }
}
