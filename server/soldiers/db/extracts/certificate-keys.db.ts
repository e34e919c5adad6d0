import type { Transaction } from '../../../db/client.ts'

/** Keeps a public key under which certificates are signed; once it is there, nothing changes. */
export async function keepPublicKey(
  tx: Transaction,
  { kid, x, at }: { kid: string; x: string; at: Date },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO certificate_key (kid, x, first_used_at) VALUES (${kid}, ${x}, ${at}) ON CONFLICT (kid) DO NOTHING`
}

/** The public key of a thumbprint, base64url; null: none of ours. */
export async function readPublicKey(tx: Transaction, kid: string): Promise<string | null> {
  const key = await tx.certificateKey.findUnique({ where: { kid }, select: { x: true } })
  return key?.x ?? null
}

/** Whose award a record number stands for, even where the award is gone; null: a number of nothing on record. */
export async function readHolder(tx: Transaction, number: string): Promise<string | null> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT candidate_id::text AS id FROM sheet WHERE id = ${number}::uuid
    UNION ALL SELECT soldier_id::text FROM carried_award WHERE id = ${number}::uuid`
  return rows[0]?.id ?? null
}
