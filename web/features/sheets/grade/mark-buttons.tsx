import { TrialBars } from '../../../charts/trial-bars.tsx'
import type { TrialNote } from '../../../domain/sheets/grading/running-sheet.ts'
import { Button } from '../../../ui/button.tsx'

interface MarkButtonsProps {
  note: TrialNote
  isMarkable: boolean
  hand: 'right' | 'left'
  onMark: (mark: 'correct' | 'incorrect') => void
}

/** The two marks under the thumb; "correct" is the larger one. A tap that bounces counts once. */
export function MarkButtons({ note, isMarkable, hand, onMark }: MarkButtonsProps) {
  const once = (mark: 'correct' | 'incorrect') => (event: React.MouseEvent) => {
    if (event.detail < 2) onMark(mark)
  }
  const correct = (
    <Button
      key="correct"
      kind="main"
      className="mark-correct"
      aria-pressed={note.mark === 'correct'}
      disabled={!isMarkable}
      onClick={once('correct')}
    >
      <TrialBars marks={['correct']} trials={1} height={34} />
      Correct
    </Button>
  )
  const incorrect = (
    <Button
      key="incorrect"
      className="mark-incorrect"
      aria-pressed={note.mark === 'incorrect'}
      disabled={!isMarkable}
      onClick={once('incorrect')}
    >
      <TrialBars marks={['incorrect']} trials={1} height={34} />
      {note.byReading ? 'Incorrect by reading: go on' : 'Incorrect'}
    </Button>
  )
  return (
    <fieldset className="marks">
      <legend className="out-of-sight">Mark this trial</legend>
      {hand === 'right' ? [incorrect, correct] : [correct, incorrect]}
    </fieldset>
  )
}
