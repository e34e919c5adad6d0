import type { Transaction } from '../../db/client.ts'
import { sheetNotBlinded } from './scope.db.ts'

/**
 * Whether a grader must not learn yet how another judged an attempt of a candidate, whatever else they may see: a sheet of
 * the candidate is kept from them.
 */
export async function isBlindedTo(tx: Transaction, graderId: string, candidateId: string): Promise<boolean> {
  const nothing = { everyone: false, unitId: null, selfId: null, sponsorId: null, today: '' }
  const [row] = await tx.$queryRaw<[{ blinded: boolean }]>`
    SELECT EXISTS (SELECT FROM sheet s WHERE s.candidate_id = ${candidateId}::uuid
      AND NOT ${sheetNotBlinded({ ...nothing, graderId }, 's')}) AS blinded`
  return row.blinded
}
