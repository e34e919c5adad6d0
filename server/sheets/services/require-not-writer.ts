import type { Transaction } from '../../db/client.ts'
import { AppError } from '../../errors.ts'
import { readWriters } from '../db/sheet-decisions.db.ts'

/** Refuses to let who entered a sheet, amended it or proposed to, decide what becomes of it. */
export async function requireNotWriter(
  tx: Transaction,
  { accountId }: { readonly accountId: string },
  sheetId: string,
): Promise<void> {
  if (!(await readWriters(tx, sheetId)).includes(accountId)) return
  const detail =
    'You entered or amended this sheet, or proposed to. Another person of the office decides about it, or a commander of the unit where the office has nobody else.'
  throw new AppError('not-allowed', 'second-person', detail)
}
