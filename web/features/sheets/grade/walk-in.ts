import { useCallback } from 'react'
import type { PendingAction } from '../../../device/store/pending-action.ts'
import { keepPendingAction, readPendingActions } from '../../../device/store/pending-action-store.ts'
import { useKept } from '../../../device/store/use-kept.ts'
import type { GradedPerson } from '../../../domain/sheets/grading/sheet-head.ts'

export type PendingWalkIn = Extract<PendingAction, { kind: 'walk-in' }>

/**
 * The walk-in of a sheet while it is on this phone: it waits to be sent, or was refused; null once the server has it, and of
 * somebody booked, for whom nothing is read.
 */
export const useWalkIn = (accountId: string, sheetId: string, isWalkIn: boolean): PendingWalkIn | null => {
  const read = useCallback(async () => (isWalkIn ? readPendingActions(accountId) : []), [accountId, isWalkIn])
  const pendingActions = useKept(read).value ?? []
  const walkIn = pendingActions.find(({ id }) => id === sheetId)
  return walkIn?.kind === 'walk-in' ? walkIn : null
}

/** Sends a walk-in with another roster number or name; one that the server has already stays as it is. */
export const mendWalkIn = async (
  walkIn: PendingWalkIn | null,
  { rosterNumber, familyName }: Pick<GradedPerson, 'rosterNumber' | 'familyName'>,
): Promise<void> => {
  if (!walkIn) return
  const body = { ...walkIn.body, rosterNumber, familyName }
  await keepPendingAction({ ...walkIn, at: new Date().toISOString(), state: 'waiting', message: '', body })
}
