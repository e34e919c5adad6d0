import type { Standard } from '#contract/standards/standards.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import type { RunningSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'

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
