import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { changeSheet, dropSheet, keepSheet } from '../../../device/store/sheet-store.ts'
import type { GradedPerson } from '../../../domain/sheets/grading/sheet-head.ts'

/** The id of the sheet belongs to another sheet. */
const TAKEN = 409

export const isTaken = ({ refusedWith }: Pick<KeptSheet, 'refusedWith'>): boolean => refusedWith === TAKEN

/**
 * Opens a sheet again that the server has refused, to mend it. Its id stays, since nothing is stored under it; only where
 * the id itself was taken it gets a new one. Out: the id to go on under.
 */
export const reopen = async (kept: KeptSheet, newId: string): Promise<string> => {
  const opened: KeptSheet = { ...kept, state: 'running', closedAt: null, body: null, message: '', refusedWith: null }
  if (!isTaken(kept)) {
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

/** Sends a closed sheet anew under an id of its own, with what else it then says. Out: that id. */
const sendAs = async (kept: KeptSheet, newId: string, sheet: KeptSheet['sheet']): Promise<string> => {
  const waiting: KeptSheet = { ...kept, state: 'waiting', body: null, message: '', refusedWith: null, sheet }
  await keepSheet({ ...waiting, id: newId, revision: 1 })
  await dropSheet(kept.accountId, kept.id)
  return newId
}

/** Two graders graded one attempt: this is the second one's sheet of it. */
export const sendAsSecond = (kept: KeptSheet, newId: string): Promise<string> =>
  sendAs(kept, newId, { ...kept.sheet, head: { ...kept.sheet.head, secondOf: kept.id } })

/** The same test was entered twice: the office gets this sheet, too, with all its marks, as no attempt. */
export const sendAsDuplicate = (kept: KeptSheet, newId: string): Promise<string> =>
  sendAs(kept, newId, {
    ...kept.sheet,
    void: { kind: 'other', text: 'Duplicate: the same test came in from another phone.' },
  })
