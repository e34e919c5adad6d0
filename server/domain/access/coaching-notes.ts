import type { Actor } from './actor.ts'

/** So long its author may change a note; practice: long enough to mend a slip, too short to rewrite what was said. */
const CHANGEABLE_MS = 14 * 24 * 60 * 60 * 1000

/** Whether an account may change a coaching note now: its author, for two weeks. On which candidates is a matter of scope. */
export function mayChangeNote(
  actor: Actor,
  note: { readonly byId: string; readonly writtenAt: Date },
  now: Date,
): boolean {
  return note.byId === actor.accountId && now.getTime() - note.writtenAt.getTime() <= CHANGEABLE_MS
}

/** Whether an account may remove a coaching note and bring it back: its author, and the office. */
export function mayRemoveNote(actor: Actor, note: { readonly byId: string }): boolean {
  return note.byId === actor.accountId || actor.roles.includes('office')
}
