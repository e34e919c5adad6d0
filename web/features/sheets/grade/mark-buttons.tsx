import type { Standard } from '#contract/standards/standards.ts'
import { TrialBars } from '../../../charts/trial-bars.tsx'
import type { TrialNote } from '../../../domain/sheets/grading/running-sheet.ts'
import { Button } from '../../../ui/button.tsx'
import { UndoButton, type UndoButtonProps } from './undo-button.tsx'

interface MarkButtonsProps extends UndoButtonProps {
  standard: Standard
  note: TrialNote
  isMarkable: boolean
  hand: 'right' | 'left'
  onMark: (mark: 'correct' | 'incorrect') => void
}

/** The two marks under the thumb, "correct" the larger one, and at their side what takes the last step back. */
export function MarkButtons({ note, isMarkable, hand, onMark, ...undo }: MarkButtonsProps) {
  const correct = (
    <Button
      key="correct"
      kind="main"
      className="mark-correct"
      aria-pressed={note.mark === 'correct'}
      disabled={!isMarkable}
      onClick={() => onMark('correct')}
    >
      <TrialBars marks={['correct']} trials={1} height={30} />
      Correct
    </Button>
  )
  const incorrect = (
    <Button
      key="incorrect"
      className="mark-incorrect"
      aria-pressed={note.mark === 'incorrect'}
      disabled={!isMarkable}
      onClick={() => onMark('incorrect')}
    >
      <TrialBars marks={['incorrect']} trials={1} height={30} />
      Incorrect{note.byReading && <small> by reading</small>}
    </Button>
  )
  const back = <UndoButton key="undo" {...undo} />
  return (
    <fieldset className="marks">
      <legend className="out-of-sight">Mark this trial</legend>
      {hand === 'right' ? [back, incorrect, correct] : [correct, incorrect, back]}
    </fieldset>
  )
}
