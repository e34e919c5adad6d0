import { expect } from 'vitest'
import { readDossiers } from '../../../server/assessment/db/dossiers.db.ts'
import { readCatalogue } from '../../../server/db/catalogue.db.ts'
import { assessSoldier } from '../../../server/domain/assessment/assess-soldier.ts'
import type { TestApp } from '../build-test-app.ts'

/**
 * Expects that judging all of everybody's sheets anew changes no row: whatever was judged from some place on only, and stored
 * piece by piece, is what judging all at once gives, down to where each span begins and ends.
 */
export async function expectSettled({ db, sql }: TestApp): Promise<void> {
  const { judging } = await readCatalogue(db)
  const soldiers = await sql<{ id: string }>('SELECT id FROM soldier ORDER BY id')
  const dossiers = await readDossiers(
    db,
    soldiers.map(({ id }) => id),
  )
  for (const [id, dossier] of dossiers) {
    const assessed = assessSoldier(judging, dossier, dossier.people)
    const stored = new Map(dossier.sheets.map((sheet) => [sheet.id, sheet]))
    for (const { kind, unitId, ...sheet } of assessed.sheets) {
      const tallied = { talliedKind: kind, talliedUnitId: kind === null ? null : unitId }
      expect(stored.get(sheet.id), `sheet ${sheet.id} of ${id}`).toMatchObject({ ...sheet, ...tallied })
    }
    for (const { certification, ...standing } of assessed.certifications) {
      const { statuses = [], retests = [], earned = [] } = dossier.standings.get(certification) ?? {}
      expect({ statuses, retests, earned }, `${id} in ${certification}`).toEqual(standing)
    }
  }
}
