import type { FactsRow } from '../../../ceremonies/db/manning-facts.db.ts'

/** A soldier as a proposal names one. */
export const somebody = ({ soldierId, rosterNumber, name, grade, unitId }: FactsRow) => ({
  soldierId,
  rosterNumber,
  name,
  grade: grade ?? '',
  unitId: unitId!,
})
