import { TrialBars } from '../../charts/trial-bars.tsx'
import { Button } from '../../ui/button.tsx'
import './touch-pad.css'

/** The keys under the thumb where there is no keyboard; "correct" is the larger one. */
export function TouchPad({ onKey }: { onKey: (key: string) => void }) {
  return (
    <div className="touch-pad">
      <Button onClick={() => onKey('Backspace')}>Back</Button>
      <Button onClick={() => onKey('.')}>Blank</Button>
      <Button className="touch-incorrect" onClick={() => onKey('0')}>
        <TrialBars marks={['incorrect']} trials={1} height={24} />
        Incorrect
      </Button>
      <Button kind="main" className="touch-correct" onClick={() => onKey('1')}>
        <TrialBars marks={['correct']} trials={1} height={24} />
        Correct
      </Button>
    </div>
  )
}
