/** A thing with what it was before and what was taken back. */
export interface History<Thing> {
  readonly past: readonly Thing[]
  readonly present: Thing
  readonly future: readonly Thing[]
  /** What the last change was about; a further one about the same belongs to it. */
  readonly about: string | null
}

/** So many steps can be taken back. */
const MOST_STEPS = 500

export const begun = <Thing>(present: Thing): History<Thing> => ({ past: [], present, future: [], about: null })

/** A change. Changes about the same, one after the other, are one step: what is typed into one field. */
export function changed<Thing>(history: History<Thing>, next: Thing, about: string | null = null): History<Thing> {
  if (next === history.present) return history
  const isSameStep = about !== null && about === history.about
  const past = isSameStep ? history.past : [...history.past, history.present].slice(-MOST_STEPS)
  return { past, present: next, future: [], about }
}

/** One step back; as it is where there is none. */
export function undone<Thing>({ past, present, future, about }: History<Thing>): History<Thing> {
  const before = past.at(-1)
  if (before === undefined) return { past, present, future, about }
  return { past: past.slice(0, -1), present: before, future: [present, ...future], about: null }
}

/** One step forward again. */
export function redone<Thing>({ past, present, future, about }: History<Thing>): History<Thing> {
  const [next, ...rest] = future
  if (next === undefined) return { past, present, future, about }
  return { past: [...past, present], present: next, future: rest, about: null }
}
