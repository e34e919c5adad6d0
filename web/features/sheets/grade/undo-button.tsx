import type { Standard } from '#contract/standards/standards.ts'
import type { Step } from '../../../domain/sheets/grading/running-sheet.ts'
import { Button } from '../../../ui/button.tsx'
import { formatStep, formatStepPlace } from './format-step.ts'

export interface UndoButtonProps {
  standard: Standard
  calls: Standard['calls']
  last: Step | undefined
  onUndo: (step: Step) => void
}

/** Takes the last step back in one tap, and says which one that is. */
export function UndoButton({ standard, calls, last, onUndo }: UndoButtonProps) {
  const place = last && formatStepPlace(standard, last)
  return (
    <Button
      className="mark-undo"
      disabled={!last}
      aria-label={last ? `Undo ${place}: ${formatStep(standard, calls, last)}` : undefined}
      onClick={() => last && onUndo(last)}
    >
      {'Undo '}
      {last && <span>{place}</span>}
    </Button>
  )
}
