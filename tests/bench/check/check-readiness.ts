import { isDeepStrictEqual } from 'node:util'
import type { Transaction } from '../../../server/db/client.ts'
import { KEPT_READINESS } from '../../support/kept-readiness.ts'

/** Counts everybody's readiness anew; throws an Error where what was kept is something else. */
export async function checkReadiness(tx: Transaction): Promise<void> {
  const kept = await tx.$queryRawUnsafe(KEPT_READINESS)
  await tx.$executeRaw`SELECT count_readiness(ARRAY(SELECT id FROM certification))`
  if (isDeepStrictEqual(await tx.$queryRawUnsafe(KEPT_READINESS), kept)) return
  throw new Error('The tallies of readiness are not what counting anew finds.')
}
