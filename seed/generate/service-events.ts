import type { PlannedSoldier } from './people.ts'
import type { PlannedEvent } from './plan.ts'
import { morningOf, type Program } from './program/program.ts'

/** The roster as it is entered: who is there when the program begins, and after that every coming, change and going. */
export function serviceEvents(program: Program, soldiers: readonly PlannedSoldier[]): PlannedEvent[] {
  return soldiers.flatMap(({ rosterNumber, familyName, givenName, grade, arms, unitKey, from, changes }) => {
    const body = { rosterNumber, familyName, givenName, grade, arms, unitId: unitKey, from }
    const joins: PlannedEvent = { kind: 'soldier', at: morningOf(program, from), body }
    const later = changes.map(({ unitKey: unitId, ...change }): PlannedEvent => {
      const at = morningOf(program, change.from)
      return { kind: 'change', at, soldier: rosterNumber, body: { ...change, ...(unitId && { unitId }) } }
    })
    return [joins, ...later]
  })
}
