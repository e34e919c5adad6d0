import type { Retest } from '#contract/standards/certifications.ts'
import { Button } from '../../../ui/button.tsx'
import { counted, figure } from '../../../words/format-number.ts'
import { keyOf } from './filter-retests.ts'

/** So many are booked at once; the rest comes after them. */
const MOST_AT_ONCE = 100

interface ChooseAllProps {
  rows: readonly Retest[]
  chosen: readonly string[]
  onChosen: (keys: readonly string[]) => void
}

/** Chooses all retests of the list, the first due first, or none; says how many are chosen. */
export function ChooseAll({ rows, chosen, onChosen }: ChooseAllProps) {
  const shown = rows.slice(0, MOST_AT_ONCE).map(keyOf)
  const count = rows.filter((row) => chosen.includes(keyOf(row))).length
  return (
    <p className="choose-all no-print">
      <Button onClick={() => onChosen(shown)} disabled={count === shown.length}>
        {rows.length > MOST_AT_ONCE ? `Choose the first ${MOST_AT_ONCE}` : `Choose all ${figure(rows.length)}`}
      </Button>
      {count > 0 && <Button onClick={() => onChosen([])}>Choose none</Button>}
      <span className="muted">
        {count > 0 ? `${counted(count, 'retest')} chosen, to be booked above.` : 'None is chosen.'}
      </span>
    </p>
  )
}
