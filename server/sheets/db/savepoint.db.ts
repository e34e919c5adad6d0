import type { Transaction } from '../../db/client.ts'

/** Works something out in a running transaction, and takes all of it back where `keep` says so of what it came to. */
export async function keepOrTakeBack<Result>(
  tx: Transaction,
  work: () => Promise<Result>,
  keep: (result: Result) => boolean,
): Promise<Result> {
  await tx.$executeRaw`SAVEPOINT worked_out`
  const result = await work()
  if (keep(result)) await tx.$executeRaw`RELEASE SAVEPOINT worked_out`
  else await tx.$executeRaw`ROLLBACK TO SAVEPOINT worked_out`
  return result
}
