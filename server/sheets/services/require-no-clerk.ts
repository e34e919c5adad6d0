import { findPartialTo } from '../../access/db/impartiality.db.ts'
import { notAllowed } from '../../access/services/require.ts'
import { readAccountsOfOffice } from '../../accounts/db/accounts.db.ts'
import type { Transaction } from '../../db/client.ts'
import { readWriters } from '../db/sheet-decisions.db.ts'

/**
 * Refuses where somebody of the office can decide about a sheet: who neither wrote it nor is partial to its candidate. A
 * small unit has one clerk, who enters the paper; a commander decides for want of another.
 */
export async function requireNoClerk(tx: Transaction, sheetId: string, candidateId: string): Promise<void> {
  const writers = await readWriters(tx, sheetId)
  for (const { accountId, soldierId } of await readAccountsOfOffice(tx)) {
    if (writers.includes(accountId)) continue
    if (soldierId === null || (await findPartialTo(tx, soldierId, [candidateId])).length === 0) throw notAllowed()
  }
}
