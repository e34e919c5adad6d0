import type { Transaction } from '../../db/client.ts'

export interface StoredApp {
  readonly id: string
  readonly sealedSecret: Buffer
  /** Time step of the last code that was taken. */
  readonly lastStep: number
  readonly createdAt: Date
  readonly lastUsedAt: Date | null
}

/** The app of an account that counts, or the one that waits for its first code; null where there is none. */
export async function readApp(
  tx: Transaction,
  accountId: string,
  which: 'counts' | 'waits',
): Promise<StoredApp | null> {
  const app = await tx.authenticatorApp.findFirst({
    where: { accountId, confirmedAt: which === 'counts' ? { not: null } : null },
  })
  return app && { ...app, sealedSecret: Buffer.from(app.sealedSecret), lastStep: Number(app.lastStep) }
}

/** Stores an app that waits for its first code, in place of one that waited before. */
export async function insertWaitingApp(
  tx: Transaction,
  accountId: string,
  sealedSecret: Buffer,
  createdAt: Date,
): Promise<void> {
  await tx.authenticatorApp.deleteMany({ where: { accountId, confirmedAt: null } })
  await tx.authenticatorApp.create({ data: { accountId, sealedSecret: new Uint8Array(sealedSecret), createdAt } })
}

/** Makes the app that waited the one that counts. Out: whether it waited still; the one before is gone. */
export async function confirmApp(
  tx: Transaction,
  accountId: string,
  { id, step, now }: { id: string; step: number; now: Date },
): Promise<boolean> {
  await tx.authenticatorApp.deleteMany({ where: { accountId, confirmedAt: { not: null } } })
  const { count } = await tx.authenticatorApp.updateMany({
    where: { id, confirmedAt: null },
    data: { confirmedAt: now, lastStep: step },
  })
  return count === 1
}

/** Uses up the code of a time step and all before it. Out: false where it, or a later one, was taken already. */
export async function takeUpStep(tx: Transaction, id: string, step: number, now: Date): Promise<boolean> {
  const { count } = await tx.authenticatorApp.updateMany({
    where: { id, lastStep: { lt: step } },
    data: { lastStep: step, lastUsedAt: now },
  })
  return count === 1
}

/** Takes the app of an account away, and one that waits. Out: whether there was one that counted. */
export async function deleteApps(tx: Transaction, accountId: string): Promise<boolean> {
  const { count } = await tx.authenticatorApp.deleteMany({ where: { accountId, confirmedAt: { not: null } } })
  await tx.authenticatorApp.deleteMany({ where: { accountId } })
  return count === 1
}
