import type { SheetSummary } from '#contract/sheets/sheets.ts'
import type { Draft } from './draft.ts'

/**
 * The sheets that one being entered can be the second grader's of: tests of the same candidate, standard and day by another
 * grader, that are first themselves, neither void nor rejected.
 */
export const firstGradings = (
  sheets: readonly SheetSummary[],
  draft: Pick<Draft, 'candidate' | 'grader' | 'day' | 'id'>,
  standard: string,
): SheetSummary[] =>
  sheets.filter(
    ({ id, state, day, body }) =>
      id !== draft.id &&
      state !== 'rejected' &&
      day === draft.day &&
      body.purpose === 'test' &&
      body.standard === standard &&
      body.secondOf === null &&
      body.void === null &&
      body.candidateId === draft.candidate?.id &&
      body.graderId !== draft.grader?.id,
  )
