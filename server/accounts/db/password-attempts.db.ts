import { createHash } from 'node:crypto'
import type { Transaction } from '../../db/client.ts'
import type { WrongAttempts } from '../../domain/access/next-attempt.ts'

/** The row of what is counted; from the hash nobody reads a name or an address. */
const keyOf = (subject: string) => createHash('sha256').update(subject).digest()

/** The attempts of a subject, like "account ‹id›", locked until the end of the transaction. */
export async function lockAttempts(tx: Transaction, subject: string, now: Date): Promise<WrongAttempts> {
  const key = keyOf(subject)
  await tx.$executeRaw`
    INSERT INTO password_tries (key, level, counted_at) VALUES (${key}, 0, ${now}) ON CONFLICT DO NOTHING`
  const [row] = await tx.$queryRaw<[{ level: number; countedAt: Date; waitUntil: Date | null }]>`
    SELECT level, counted_at AS "countedAt", wait_until AS "waitUntil" FROM password_tries WHERE key = ${key} FOR UPDATE`
  return { level: row.level, countedAt: row.countedAt.getTime(), waitUntil: row.waitUntil?.getTime() ?? null }
}

export async function saveAttempts(tx: Transaction, subject: string, attempts: WrongAttempts): Promise<void> {
  const waitUntil = attempts.waitUntil === null ? null : new Date(attempts.waitUntil)
  await tx.$executeRaw`
    UPDATE password_tries SET level = ${attempts.level}, counted_at = ${new Date(attempts.countedAt)}, wait_until = ${waitUntil}
    WHERE key = ${keyOf(subject)}`
}

/** Takes back one attempt, which was right. */
export async function giveBackAttempt(tx: Transaction, subject: string): Promise<void> {
  await tx.$executeRaw`
    UPDATE password_tries SET level = GREATEST(level - 1, 0), wait_until = NULL WHERE key = ${keyOf(subject)}`
}

/** Deletes all wrong attempts of a subject. */
export async function clearAttempts(tx: Transaction, subject: string): Promise<void> {
  await tx.$executeRaw`DELETE FROM password_tries WHERE key = ${keyOf(subject)}`
}

/** Deletes what was last counted before a time. */
export async function deleteAttemptsBefore(tx: Transaction, before: Date): Promise<void> {
  await tx.$executeRaw`DELETE FROM password_tries WHERE counted_at < ${before}`
}
