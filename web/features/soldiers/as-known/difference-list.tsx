import type { AsKnown } from '#contract/soldiers/as-known.ts'
import { formatChanged, formatSheetChanged } from '../../../domain/soldiers/format-changed.ts'
import { formatEntered, type Sayings } from '../../../domain/soldiers/format-entered.ts'
import { formatMoment } from '../../../words/format-moment.ts'

type Difference = AsKnown['differences'][number]

interface DifferenceListProps {
  differences: readonly Difference[]
  whichSheet: (id: string) => string
  say: Sayings
  today: string
}

/** What was entered later and changes the picture, in order, each with what it changes. */
export function DifferenceList({ differences, whichSheet, say, today }: DifferenceListProps) {
  return (
    <ol className="known-differences">
      {differences.map((difference) => (
        <li key={difference.at}>
          <p className="muted small">Entered {formatMoment(difference.at, today)}</p>
          {enteredLines(difference, say, whichSheet).map((line) => (
            <p key={line}>{line}</p>
          ))}
          <ul className="known-effects">
            {effectsOf(difference, say, whichSheet).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </li>
      ))}
    </ol>
  )
}

const enteredLines = ({ entered }: Difference, say: Sayings, whichSheet: (id: string) => string): string[] => [
  ...new Set(entered.map((fact) => formatEntered(fact, say, whichSheet))),
]

function effectsOf(difference: Difference, say: Sayings, whichSheet: (id: string) => string): string[] {
  const said = new Set(difference.entered.flatMap((fact) => (fact.kind === 'decision' ? [fact.sheetId] : [])))
  return [
    ...difference.certifications.flatMap(({ certification, before, after }) =>
      formatChanged(certification, before, after, say),
    ),
    ...difference.sheets
      .filter(({ id }) => !said.has(id))
      .flatMap(({ id, before, after }) => formatSheetChanged(before, after, whichSheet(id))),
  ]
}
