import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { changeSheet, dropSheet, keepSheet } from '../../../device/store/sheet-store.ts'
import type { GradedPerson } from '../../../domain/sheets/grading/running-sheet.ts'

const TAKEN = 409

/**
 * Opens a sheet again that the server has refused, to mend it. Its id stays, since nothing is stored under it; only where
 * the id itself was taken it gets a new one. Out: the id to go on under.
 */
export const reopen = async (kept: KeptSheet, newId: string): Promise<string> => {
  const opened: KeptSheet = { ...kept, state: 'running', closedAt: null, body: null, message: '', refusedWith: null }
  if (kept.refusedWith !== TAKEN) {
    await changeSheet(kept.accountId, kept.id, () => opened)
    return kept.id
  }
  await keepSheet({ ...opened, id: newId, revision: 1 })
  await dropSheet(kept.accountId, kept.id)
  return newId
}

/** Sends it once more as it is. */
export const tryAgain = (kept: KeptSheet): Promise<unknown> =>
  changeSheet(kept.accountId, kept.id, (sheet) => ({ ...sheet, state: 'waiting', message: '', refusedWith: null }))

/** Puts another roster number or name on a sheet whose candidate was not found, and sends it again. */
export const mendCandidate = (kept: KeptSheet, candidate: Pick<GradedPerson, 'rosterNumber' | 'familyName'>) =>
  changeSheet(kept.accountId, kept.id, (sheet) => ({
    ...sheet,
    state: 'waiting',
    message: '',
    refusedWith: null,
    sheet: {
      ...sheet.sheet,
      head: { ...sheet.sheet.head, candidate: { ...sheet.sheet.head.candidate, ...candidate } },
    },
  }))
