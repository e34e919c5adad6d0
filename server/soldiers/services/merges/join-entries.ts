import { settle } from '../../../assessment/services/settle.ts'
import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { lockSoldiers } from '../../../db/locks.db.ts'
import { adoptChanges } from '../../../domain/people/adopt-changes.ts'
import type { SoldierPeriod } from '../../../domain/people/soldier-periods.ts'
import type { Note } from '../../../record/services/recorded.ts'
import { takeContained } from '../../db/merges/merge-clashes.db.ts'
import { moveBack, moveRows, putBack, takeRowsOf } from '../../db/merges/merge-moves.db.ts'
import { claimNamed, deleteDerived, findTouched, standAsBefore } from '../../db/merges/merge-sheets.db.ts'
import { adopt, type GivenUp, lendHeight, type MergeTraces, takeHeightBack } from '../../db/merges/merges.db.ts'
import { deleteChange, readChanges } from '../../db/soldiers.db.ts'
import { renewPeriods } from '../renew-periods.ts'
import { untallyAll } from './untally-all.ts'

/** Before any day of ours. */
const EVER = '0001-01-01'

/**
 * Gives all that one entry has to the other and takes it off the roster, then judges anew whatever hangs on either. Both
 * are locked, nothing clashes, and no standard changes meanwhile. Out: what it takes to undo it, and the new periods.
 */
export async function joinEntries(
  tx: Transaction,
  catalogue: Catalogue,
  now: Date,
  keptId: string,
  awayId: string,
  note: Note,
): Promise<MergeTraces & { readonly periods: readonly SoldierPeriod[] }> {
  const touched = [...new Set([...(await findTouched(tx, awayId)), ...(await findTouched(tx, keptId)), keptId])]
  const others = touched.filter((id) => id !== awayId)
  await lockSoldiers(tx, others)
  await untallyAll(tx, catalogue, touched)
  const changes = adoptChanges(await readChanges(tx, keptId), await readChanges(tx, awayId))
  const contained = await takeContained(tx, keptId, awayId)
  const { moved, putAside } = await moveRows(tx, awayId, keptId)
  const ownChanges = await takeRowsOf(tx, 'soldier_change', 'soldier_id', awayId)
  await deleteDerived(tx, awayId)
  const [gone] = await takeRowsOf(tx, 'soldier', 'id', awayId)
  const row = gone!.row as Pick<GivenUp, 'height_cm'>
  const away = { ...row, heightLent: await lendHeight(tx, keptId, row.height_cm) }
  const adopted = await adopt(tx, keptId, changes)
  const periods = await renewPeriods(tx, keptId)
  const disturbed = others.map((soldierId) =>
    soldierId === keptId ? { soldierId, qualifiesAnewFrom: EVER } : { soldierId },
  )
  const { stoodBefore: judged } = await settle(tx, catalogue, now, disturbed, note, { quiet: true })
  return { away, moved, putAside: [...contained, ...putAside, ...ownChanges], adopted, judged, periods }
}

/** The reverse, from its traces; later entries stay with the entry they name. */
export async function partEntries(
  tx: Transaction,
  catalogue: Catalogue,
  now: Date,
  { keptId, awayId, at, ...traces }: MergeTraces & { keptId: string; awayId: string; at: Date },
  note: Note,
): Promise<void> {
  const touched = [...new Set([...(await findTouched(tx, keptId)), keptId])]
  await lockSoldiers(tx, touched)
  await untallyAll(tx, catalogue, touched)
  await putBack(tx, [{ table: 'soldier', row: traces.away }])
  if (traces.away.heightLent) await takeHeightBack(tx, keptId, traces.away.height_cm!)
  await moveBack(tx, traces.moved, keptId, awayId)
  await claimNamed(tx, keptId, awayId)
  await putBack(tx, traces.putAside)
  for (const id of traces.adopted) await deleteChange(tx, id)
  await deleteDerived(tx, keptId)
  for (const id of [keptId, awayId]) await renewPeriods(tx, id)
  await standAsBefore(tx, traces.judged, at)
  const disturbed = [...touched, awayId].map((soldierId) =>
    soldierId === keptId || soldierId === awayId ? { soldierId, qualifiesAnewFrom: EVER } : { soldierId },
  )
  await settle(tx, catalogue, now, disturbed, note, { quiet: true })
}
