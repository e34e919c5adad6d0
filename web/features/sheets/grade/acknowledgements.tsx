import type { RunningSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'
import { Button } from '../../../ui/button.tsx'
import { formatUnitTime } from '../../../words/format-zone.ts'

interface AcknowledgementsProps {
  sheet: RunningSheet
  onTap: (event: SheetEvent) => Promise<void>
}

/** Candidate and sponsor say that they have seen the result. It is no agreement, and nobody has to. */
export function Acknowledgements({ sheet, onTap }: AcknowledgementsProps) {
  const { candidate, sponsor, purpose } = sheet.head
  const people = [
    ...(candidate.id ? [{ id: candidate.id, who: [candidate.grade, candidate.familyName].join(' ') }] : []),
    ...(sponsor ? [{ id: sponsor.id, who: `the sponsor, ${sponsor.name},` }] : []),
  ]
  if (purpose !== 'test' || people.length === 0) return null
  return (
    <fieldset className="acknowledgements">
      <legend>Shown to candidate and sponsor</legend>
      <p>That they have seen it, not that they agree. Nobody has to; the sheet closes all the same.</p>
      {people.map(({ id, who }) => {
        const seen = sheet.acknowledged.find(({ soldierId }) => soldierId === id)
        return seen ? (
          <p key={id}>
            Seen by <bdi>{who.replace(/,$/, '')}</bdi> at {formatUnitTime(seen.at)}.
          </p>
        ) : (
          <Button key={id} onClick={() => void onTap({ kind: 'acknowledge', soldierId: id })}>
            I have seen this: <bdi>{who.replace(/,$/, '')}</bdi>
          </Button>
        )
      })}
    </fieldset>
  )
}
