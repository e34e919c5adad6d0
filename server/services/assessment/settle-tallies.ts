import type { Transaction } from '../../db/client.ts'
import type { StoredSheet } from '../../db/dossiers.db.ts'
import { readScores } from '../../db/sheets.db.ts'
import { addToTallies, takeFromTallies } from '../../db/tallies.db.ts'
import type { SheetAssessment } from '../../domain/assessment/types.ts'
import { type Contribution, countsOf } from '../../domain/tallies/contribution.ts'

interface Change {
  readonly before: StoredSheet
  readonly after: SheetAssessment
}

/** Moves what changed sheets add to the tallies: out of where they were counted, into where they count now. */
export async function settleTallies(tx: Transaction, changes: readonly Change[]): Promise<void> {
  const moving = changes.filter(
    ({ before, after }) =>
      before.talliedKind !== after.kind || (after.kind !== null && before.talliedUnitId !== after.unitId),
  )
  const scores = await readScores(
    tx,
    moving.map(({ before }) => before.id),
  )
  const contribution = ({ before }: Change, kind: 'first' | 'retest' | null, unitId: string | null): Contribution[] => {
    if (kind === null) return []
    const { standardId, day, arm, sponsorId, outcome } = before
    const { score, majors } = scores.get(before.id)!
    return [{ standardId, unitId, day, arm, kind, sponsorId, passed: outcome === 'GO', ...countsOf(score, majors) }]
  }
  await takeFromTallies(
    tx,
    moving.flatMap((one) => contribution(one, one.before.talliedKind, one.before.talliedUnitId)),
  )
  await addToTallies(
    tx,
    moving.flatMap((one) => contribution(one, one.after.kind, one.after.unitId)),
  )
}

/** Takes a sheet out of the tallies as it stands, before its content changes. */
export async function untally(tx: Transaction, sheet: StoredSheet): Promise<void> {
  const after = { ...sheet, kind: null, unitId: null }
  await settleTallies(tx, [{ before: sheet, after }])
}
