import { isDeepStrictEqual } from 'node:util'
import type { Transaction } from '../../../server/db/client.ts'
import { COUNT_SHEETS_ANEW, KEPT_NOT_COUNTED } from '../../support/kept-not-counted.ts'

/** Counts all sheets in no figure anew; throws an Error where what was kept is something else. */
export async function checkNotCounted(tx: Transaction): Promise<void> {
  const kept = await tx.$queryRawUnsafe(KEPT_NOT_COUNTED)
  await tx.$executeRawUnsafe(COUNT_SHEETS_ANEW)
  if (isDeepStrictEqual(await tx.$queryRawUnsafe(KEPT_NOT_COUNTED), kept)) return
  throw new Error('The tallies of sheets in no figure are not what counting anew finds.')
}
