import type { Facts } from './read-facts.ts'

/** A soldier's unit, grade and arms on a day, from what was entered; no unit outside the strength. */
export function whereOn(
  facts: Facts,
  soldierId: string,
  day: string,
): { unitId: string | null; grade: string | null; arms: readonly string[] } {
  let unitId: string | null = null
  let grade: string | null = null
  let arms: readonly string[] = []
  for (const change of facts.soldiers.get(soldierId)!.changes) {
    if (change.from > day) break
    grade = change.grade ?? grade
    arms = change.arms ?? arms
    unitId = change.left === null ? (change.unitId ?? unitId) : null
  }
  return { unitId, grade, arms: unitId === null ? [] : arms }
}

/** The unit and all above it. */
export function unitsAbove({ parents }: Facts, unitId: string): string[] {
  const parent = parents.get(unitId)
  return parent ? [unitId, ...unitsAbove({ parents } as Facts, parent)] : [unitId]
}
