import type { FactsRow } from '../../../ceremonies/db/manning-facts.db.ts'
import { compareText } from '../../../domain/statistics/compare-text.ts'

/** A soldier as a proposal names one. */
export const somebody = ({ soldierId, rosterNumber, name, grade, unitId }: FactsRow) => ({
  soldierId,
  rosterNumber,
  name,
  grade: grade ?? '',
  unitId: unitId!,
})

/** The order of the roster, which everybody knows; that of ids is another one in every unit. */
export const byRosterNumber = (a: { readonly rosterNumber: string }, b: { readonly rosterNumber: string }): number =>
  compareText(a.rosterNumber, b.rosterNumber)
