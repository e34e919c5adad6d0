import { STATE_WORDS, STATES, type State, StateMark } from '../ui/state-mark.tsx'
import { markPlan } from './mark-plan.ts'
import './people-marks.css'

const MOST_MARKS = 400

interface PeopleMarksProps {
  tally: Record<State, number>
  size?: number
}

/** A body of people, one mark a soldier, in order of state. The words belong beside it: see `StateKey`. */
export function PeopleMarks({ tally, size = 20 }: PeopleMarksProps) {
  const { each, marks } = markPlan(tally, MOST_MARKS)
  return (
    <span className="people-marks" aria-hidden="true">
      {marks.map((state, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: marks of a state are alike
        <StateMark key={index} state={state} size={size} />
      ))}
      {each > 1 && <span className="people-scale">one mark for {each}</span>}
    </span>
  )
}

/** The counts by state in words: "9 certified, 2 part way". States nobody is in are left out. */
export function StateKey({ tally }: { tally: Record<State, number> }) {
  return (
    <span className="state-key">
      {STATES.filter((state) => tally[state] > 0).map((state) => (
        <span key={state}>
          {tally[state]} {STATE_WORDS[state].toLowerCase()}
        </span>
      ))}
    </span>
  )
}
