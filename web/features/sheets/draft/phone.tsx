import { useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import { throwawaySheet } from './throwaway-sheet.ts'
import { TrialField } from './trial-field.tsx'

interface PhoneProps {
  standard: Standard
  arm: string | null
  /** The call to show. */
  at: number
}

/** What a sheet of it looks like anew: other measures, trials or faults than it was begun with. Other words are not. */
const shapeOf = ({ rule, majors, minors, calls }: Standard): string =>
  JSON.stringify([
    rule,
    majors.map(({ code, faults }) => [code, faults.map((fault) => fault.code)]),
    minors.map(({ code, gauges, faults }) => [code, gauges, faults.map((fault) => fault.code)]),
    calls.map(({ measure, trial }) => [measure, trial]),
  ])

/** The sheet of a draft as it stands, to be played with while one writes; it begins anew where measures or calls change. */
export default function Phone({ standard, arm, at }: PhoneProps) {
  const [times, setTimes] = useState(0)
  if (standard.minors.length === 0)
    return <p className="trial-closed">Once there is a minor measure, its sheet is here.</p>
  const place = Math.min(at, standard.calls.length - 1)
  return (
    <Begun
      key={[shapeOf(standard), arm, place, times].join(' ')}
      standard={standard}
      arm={arm}
      at={place}
      onAgain={() => setTimes(times + 1)}
    />
  )
}

function Begun({ standard, arm, at, onAgain }: PhoneProps & { onAgain: () => void }) {
  const [keeper] = useState(() => throwawaySheet(standard, arm, at))
  return <TrialField standard={standard} keeper={keeper} leaveTo={null} onAgain={onAgain} />
}
