import type { Standard } from '#contract/standards.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import type { RunningSheet } from '../../model/grading/running-sheet.ts'
import type { SheetEvent } from '../../model/grading/sheet-event.ts'

/** What every panel over the running sheet is given. */
export interface PanelProps {
  readonly standard: Standard
  readonly scored: ScoredStandard
  readonly calls: Standard['calls']
  readonly sheet: RunningSheet
  readonly onTap: (event: SheetEvent) => Promise<void>
  readonly onClose: () => void
  readonly onCease: () => void
}
