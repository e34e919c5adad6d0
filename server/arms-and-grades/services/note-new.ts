import type { Transaction } from '../../db/client.ts'
import type { Note } from '../../record/services/recorded.ts'
import { addArms, addGrades } from '../db/arms-and-grades.db.ts'

/** Grades and arms that something names. */
export interface Named {
  readonly grades?: readonly (string | null | undefined)[] | null | undefined
  readonly arms?: readonly (string | null | undefined)[] | null | undefined
}

/**
 * Puts grades and arms that the unit's lists do not have yet at the end of them, on record. `confirmed`: somebody was asked
 * and wants them; else they came in with something else, and the office is asked.
 */
export async function noteNew(tx: Transaction, note: Note, named: Named, confirmed = false): Promise<void> {
  const grades = await addGrades(tx, distinct(named.grades), confirmed)
  const arms = await addArms(tx, distinct(named.arms), confirmed)
  if (grades.length === 0 && arms.length === 0) return
  note({ action: 'lists.added', subject: { kind: 'lists', id: null }, after: { grades, arms, confirmed } })
}

/** In one order for everybody, so that two who add the same ones wait for each other and no more. */
const distinct = (codes: Named['grades']): string[] => {
  const all = (codes ?? []).filter((code) => code !== null && code !== undefined)
  return [...new Set(all)].sort()
}
