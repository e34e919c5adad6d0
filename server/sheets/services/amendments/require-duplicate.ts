import type { SheetFields } from '../../../assessment/db/new-sheets.db.ts'
import type { SheetBody } from '../../../contract/sheets/sheets.ts'
import type { Transaction } from '../../../db/client.ts'
import { invalid } from '../../../errors.ts'
import { readStandingSheet } from '../../db/duplicates.db.ts'

/** Refuses to set a sheet aside for one that is not of the same test, or does not stand itself. */
export async function requireDuplicate(
  tx: Transaction,
  { duplicateOf }: SheetBody,
  fields: Pick<SheetFields, 'id' | 'candidateId' | 'standardId' | 'day' | 'purpose' | 'secondOf'>,
): Promise<void> {
  if (duplicateOf === undefined) return
  const stands = duplicateOf === fields.id ? null : await readStandingSheet(tx, duplicateOf)
  const isSameTest =
    stands?.candidateId === fields.candidateId && stands.standardId === fields.standardId && stands.day === fields.day
  const areFirst = fields.purpose === 'test' && stands?.purpose === 'test' && !fields.secondOf && !stands.isSecond
  if (!isSameTest || !areFirst) {
    const detail =
      'A duplicate names another test sheet of the same candidate, standard and day; neither is a second grader’s.'
    throw invalid('not-a-duplicate', '/sheet/duplicateOf', detail)
  }
  if (stands.state === 'rejected') {
    const detail = 'The sheet named does not stand: it was rejected or set aside. Name the one that stands.'
    throw invalid('does-not-stand', '/sheet/duplicateOf', detail)
  }
}
