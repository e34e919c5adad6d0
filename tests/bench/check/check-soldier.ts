import { isDeepStrictEqual } from 'node:util'
import { settle } from '../../../server/assessment/services/settle.ts'
import { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import { type Catalogue, readCatalogue } from '../../../server/db/catalogue.db.ts'
import type { Transaction } from '../../../server/db/client.ts'
import { noteFor } from '../../../server/record/services/recorded.ts'
import { scoreWritten } from '../generate/judge-career.ts'

/** The product would judge the soldier's sheets and standing as they are stored, and score each sheet as stored. */
export async function checkSoldier(tx: Transaction, id: string): Promise<void> {
  const catalogue = await readCatalogue(tx)
  await checkScores(tx, catalogue, id)
  const before = await derived(tx, id)
  await settle(
    tx,
    catalogue,
    new Date(),
    [{ soldierId: id }],
    noteFor(null, () => {}),
  )
  if ((await derived(tx, id)) !== before) throw new Error(`The product judges the sheets of soldier ${id} otherwise.`)
}

async function checkScores(tx: Transaction, catalogue: Catalogue, soldierId: string): Promise<void> {
  const rows = await tx.$queryRaw<{ id: string; body: unknown; score: unknown; day: string }[]>`
    SELECT s.id::text, r.body, r.score, s.day::text FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id
    WHERE s.candidate_id = ${soldierId}::uuid`
  for (const { id, body, score, day } of rows) {
    const parsed = SheetBody.parse(body)
    if (!isDeepStrictEqual(parsed, body)) throw new Error(`Sheet ${id} is not as the contract leaves a body.`)
    const scored = scoreWritten(catalogue, { id, body: parsed, receivedAt: parsed.finishedAt })
    if (!isDeepStrictEqual(scored.score, score) || scored.fields.day !== day) {
      throw new Error(`The product scores sheet ${id} otherwise.`)
    }
  }
}

/** Everything that is derived of a soldier, as text. */
async function derived(tx: Transaction, id: string): Promise<string> {
  const [row] = await tx.$queryRaw<[{ state: string }]>`
    SELECT jsonb_build_object(
      'sheets', (SELECT jsonb_agg(s ORDER BY s.id) FROM sheet s WHERE candidate_id = person.id),
      'decisions', (SELECT count(*) FROM sheet_decision d JOIN sheet s ON s.id = d.sheet_id WHERE candidate_id = person.id),
      'standings', (SELECT jsonb_agg(x ORDER BY certification_id, from_day) FROM standing x WHERE soldier_id = person.id),
      'retests', (SELECT jsonb_agg(x ORDER BY certification_id, standard, from_day) FROM retest_span x WHERE soldier_id = person.id),
      'awards', (SELECT jsonb_agg(x ORDER BY certification_id, sheet_id) FROM earned_award x WHERE soldier_id = person.id)
    )::text AS state FROM soldier person WHERE id = ${id}::uuid`
  return row.state
}
