import type { ScoredStandard, SheetScore } from '#scoring/types.ts'
import { type Cell, cellsOf, markAt } from './cells.ts'
import type { Draft } from './draft.ts'

/** The places that keep an unfinished sheet open: unmarked majors, and the first blank trial of undecided measures. */
export const openPlaces = (standard: ScoredStandard, draft: Draft, score: SheetScore): Cell[] => {
  if (score.ending !== 'unfinished') return []
  const undecided = new Set(score.minors.filter(({ outcome }) => outcome === null).map(({ code }) => code))
  const seen = new Set<string>()
  return cellsOf(standard).filter((cell) => {
    if (markAt(draft, cell) !== null || seen.has(cell.code)) return false
    if (cell.trial > 0 && !undecided.has(cell.code)) return false
    seen.add(cell.code)
    return true
  })
}
