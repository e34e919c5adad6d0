import type { SheetBody } from '#contract/sheets/sheets.ts'
import type { Mark } from '#scoring/types.ts'
import type { GradedPerson, SheetHead } from './sheet-head.ts'

/** One thing a grader does. It names its call, so that the same tap twice changes nothing more. */
export type SheetEvent =
  | { readonly kind: 'mark'; readonly call: number; readonly mark: Mark }
  /** Marks calls of one measure that were called running, all of them seen. */
  | { readonly kind: 'marks'; readonly calls: readonly number[]; readonly mark: Mark }
  /** Takes the mark of a call back. */
  | { readonly kind: 'clear'; readonly call: number }
  /** Leaves a call out whose measure is decided. */
  | { readonly kind: 'leave-out'; readonly call: number }
  /** Notes a fault, or takes it off again. */
  | { readonly kind: 'fault'; readonly call: number; readonly fault: string }
  /** Null takes the reading away. */
  | { readonly kind: 'reading'; readonly call: number; readonly gauge: string; readonly value: string | null }
  /** Lets the grader's mark stand in spite of every reading of this call outside its band, and marks it correct. */
  | { readonly kind: 'override'; readonly call: number; readonly reason: string }
  | { readonly kind: 'major'; readonly major: string; readonly mark: 'GO' | 'NO-GO' | null }
  | { readonly kind: 'major-fault'; readonly major: string; readonly fault: string }
  | { readonly kind: 'major-note'; readonly major: string; readonly note: string }
  | { readonly kind: 'show'; readonly call: number }
  /** Takes the last step back; it names it, so that the same tap twice takes back one. */
  | { readonly kind: 'undo'; readonly step: number }
  | { readonly kind: 'cease' }
  | { readonly kind: 'resume' }
  /** Null takes the void back. */
  | { readonly kind: 'void'; readonly reason: SheetBody['void'] }
  | { readonly kind: 'notes'; readonly notes: string }
  | { readonly kind: 'conditions'; readonly conditions: SheetHead['conditions'] }
  | { readonly kind: 'candidate'; readonly candidate: GradedPerson; readonly sponsor: SheetHead['sponsor'] }
  | { readonly kind: 'acknowledge'; readonly soldierId: string }
