import type { PreparedSheet } from '../prepared-sheet.ts'

/** The entry in the record of changes; last, for it keeps other writers waiting until the end of the transaction. */
export const recordStatement = `
INSERT INTO record_entry (at, account_id, account_name, address, action, subject_kind, subject_id, after)
VALUES (now(), $1, $2, '127.0.0.1', 'sheet.submitted', 'sheet', $3, $4)`

export function recordValues({ sheet, assessment }: PreparedSheet, account: { id: string; name: string }): unknown[] {
  const { outcome } = sheet.score
  const after = { state: assessment.state, outcome, violations: assessment.violations.map(({ rule }) => rule) }
  return [account.id, account.name, sheet.id, JSON.stringify(after)]
}
