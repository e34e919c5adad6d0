import { existingUnits, readClosedUnits } from '../../access/db/units.db.ts'
import { formatClosed } from '../../access/services/require.ts'
import type { Transaction } from '../../db/client.ts'
import { closedWithin } from '../../domain/people/closed-within.ts'
import { type SoldierPeriod, soldierPeriods } from '../../domain/people/soldier-periods.ts'
import { invalid } from '../../errors.ts'
import { readChanges, savePeriods } from '../db/soldiers.db.ts'

/** Works a soldier's periods out anew from all changes and stores them. Changes that make no sense are invalid. */
export async function renewPeriods(tx: Transaction, id: string): Promise<SoldierPeriod[]> {
  const changes = await readChanges(tx, id)
  const [first] = [...changes].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.entry - b.entry))
  if (!first || first.unitId === null || first.grade === null) {
    const remedy = 'If they joined that day, give unitId, grade and arms too.'
    throw invalid('before-joining', '/from', `This lies before the soldier joined. ${remedy}`)
  }
  const periods = soldierPeriods(changes)
  if (periods.length === 0) {
    throw invalid('never-in-strength', '/from', 'The soldier would leave on the day they joined; give a later day.')
  }
  const closed = await readClosedUnits(
    tx,
    periods.map(({ unitId }) => unitId),
  )
  const overrun = closedWithin(periods, closed)
  if (overrun) throw invalid('unit-closed', '/unitId', formatClosed(overrun))
  await savePeriods(tx, id, periods)
  return periods
}

/** Refuses a unit that is not there. */
export async function requireUnit(tx: Transaction, unitId: string): Promise<void> {
  if ((await existingUnits(tx, [unitId])).length === 0) {
    throw invalid('unknown-unit', '/unitId', 'There is no such unit; create it first.')
  }
}
