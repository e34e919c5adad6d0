import type { SheetBody } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { findMalformed } from '#scoring/find-malformed.ts'
import { runningScore, scoreSheet } from '#scoring/score-sheet.ts'
import type { ScoredStandard, SheetScore } from '#scoring/types.ts'
import { READING } from '../../../domain/sheets/reading.ts'
import { scoredStandard } from '../../../domain/sheets/scored-standard.ts'
import { type Cell, cellsOf } from './cells.ts'
import type { Draft } from './draft.ts'
import { inTitles } from './in-titles.ts'
import { openPlaces } from './open-places.ts'
import { type PlacedProblems, placeProblems } from './place-problems.ts'
import { type HeadErrors, marksOf, missingInHead } from './to-body.ts'

export interface Assessment {
  scored: ScoredStandard
  cells: Cell[]
  score: SheetScore
  /** What is wrong with places on the sheet, by `cellKey`: by the rules here, or by the server's answer. */
  wrong: Record<string, string>
  head: HeadErrors
  /** The places to go to before the sheet can be sent: malformed ones, else those still open. */
  blocking: Cell[]
  /** The places still open, where that is all that is missing. */
  open: Cell[]
}

/** A reading that is not a number yet counts for nothing while it is typed. */
const withoutHalfTyped = ({ majors, minors }: Pick<SheetBody, 'majors' | 'minors'>) => ({
  majors,
  minors: minors.map((minor) => ({ ...minor, readings: minor.readings.filter(({ value }) => READING.test(value)) })),
})

/**
 * A draft as it stands: its score, and what keeps it from being sent.
 * `tried` is set once sending was tried; before that, what is merely not typed yet is no mistake. `answered` is what the
 * server found wrong.
 */
export const assessDraft = (draft: Draft, standard: Standard, tried: boolean, answered: PlacedProblems): Assessment => {
  const scored = scoredStandard(standard)
  const cells = cellsOf(scored)
  const outcomeOnly = draft.holds === 'GO' || draft.holds === 'NO-GO' ? draft.holds : null
  const voided = draft.holds === 'void' ? { kind: draft.voidKind, text: draft.voidText } : null
  const marks = outcomeOnly ? { majors: [], minors: [] } : marksOf(draft, standard)
  const sheet = { ...marks, void: voided, outcomeOnly }
  const malformed = findMalformed(scored, sheet).map((one) => ({ ...one, detail: inTitles(one.detail, standard) }))
  const score = malformed.length > 0 ? runningScore(scored, withoutHalfTyped(marks)) : scoreSheet(scored, sheet)
  const placed = placeProblems(malformed, marks)
  const shown = tried
    ? placed
    : placeProblems(
        malformed.filter(({ rule }) => rule !== 'at-call'),
        marks,
      )
  const open = malformed.length === 0 ? openPlaces(scored, draft, score) : []
  const malformedCells = cells.filter(({ code, trial }) => placed.cells[`${code} ${trial}`])
  return {
    scored,
    cells,
    score,
    wrong: { ...answered.cells, ...shown.cells },
    head: tried ? { ...missingInHead(draft, standard), ...answered.head } : answered.head,
    blocking: malformedCells.length > 0 ? malformedCells : open,
    open,
  }
}
