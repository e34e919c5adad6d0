import { useCallback } from 'react'
import type { Deed } from '../../../device/store/deed.ts'
import { keepDeed, readDeeds } from '../../../device/store/deed-store.ts'
import { useKept } from '../../../device/store/use-kept.ts'
import type { GradedPerson } from '../../../domain/sheets/grading/sheet-head.ts'

export type WalkInDeed = Extract<Deed, { kind: 'walk-in' }>

/**
 * The walk-in of a sheet while it is on this phone: it waits to be sent, or was refused; null once the server has it, and of
 * somebody booked, for whom nothing is read.
 */
export const useWalkIn = (accountId: string, sheetId: string, isWalkIn: boolean): WalkInDeed | null => {
  const read = useCallback(async () => (isWalkIn ? readDeeds(accountId) : []), [accountId, isWalkIn])
  const deeds = useKept(read).value ?? []
  const deed = deeds.find(({ id }) => id === sheetId)
  return deed?.kind === 'walk-in' ? deed : null
}

/** Sends a walk-in with another roster number or name; one that the server has already stays as it is. */
export const mendWalkIn = async (
  deed: WalkInDeed | null,
  { rosterNumber, familyName }: Pick<GradedPerson, 'rosterNumber' | 'familyName'>,
): Promise<void> => {
  if (!deed) return
  const body = { ...deed.body, rosterNumber, familyName }
  await keepDeed({ ...deed, at: new Date().toISOString(), state: 'waiting', message: '', body })
}
