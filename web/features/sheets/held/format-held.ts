import type { SheetSummary } from '#contract/sheets/sheets.ts'
import { capital, inWords, plural } from '../../../words/format-number.ts'

/** Conditions that nobody can waive. */
export const lasting = ({ violations }: Pick<SheetSummary, 'violations'>): boolean =>
  violations.some(({ waivable }) => !waivable)

/** The answer on the page of held sheets. `more` when there are further pages. */
export const formatHeld = (sheets: readonly Pick<SheetSummary, 'violations'>[], more: boolean): string => {
  const count = sheets.length
  if (count === 0) return 'No sheet waits for a decision.'
  if (more) return `More than ${inWords(count)} sheets wait for a decision.`
  return `${capital(inWords(count))} ${plural(count, 'sheet waits', 'sheets wait')} for a decision.`
}

/** What can be done about them. */
export const formatWhatToDo = (sheets: readonly Pick<SheetSummary, 'violations'>[]): string => {
  if (sheets.length === 0)
    return 'A sheet that breaks a condition of a valid test comes here instead of being thrown away.'
  const never = sheets.filter(lasting).length
  const rule = 'Count one with a reason, which waives what it breaks, or reject it with a reason.'
  if (never === 0) return rule
  return `${rule} ${capital(inWords(never))} ${plural(never, 'breaks', 'break')} a condition nobody can waive: reject ${plural(never, 'it', 'them')}, or amend what was entered wrong.`
}
