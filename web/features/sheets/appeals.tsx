import { useQueryClient } from '@tanstack/react-query'
import { dayInZone } from '#calendar/day-in-zone.ts'
import type { SheetDetail } from '#contract/sheets/sheets.ts'
import { appealSheet } from '../../api/sheets/appeals.ts'
import { ReasonedForm } from '../../ui/reasoned-form.tsx'
import { formatDay } from '../../words/format-day.ts'
import { unitZone } from '../../words/unit-zone.ts'

interface AppealsProps {
  sheet: SheetDetail
  /** The reader is the candidate or the sponsor on the sheet. */
  mayAppeal: boolean
  today: string
}

/** What was contested and decided about a sheet, and a way to contest it for those concerned. */
export function Appeals({ sheet, mayAppeal, today }: AppealsProps) {
  const client = useQueryClient()
  const on = (at: string) => formatDay(dayInZone(at, unitZone()), today)
  const isOpen = sheet.appeals.some(({ decision }) => decision === null)
  return (
    <>
      <ul className="history">
        {sheet.appeals.map((appeal) => (
          <li key={appeal.id}>
            <b>
              {appeal.decision === null
                ? 'Appeal, open'
                : `Appeal ${appeal.decision === 'uphold' ? 'upheld' : 'dismissed'}`}
            </b>
            <span className="muted">
              {on(appeal.appealedAt)}, {appeal.appealedBy}
            </span>
            <span className="history-reason">
              <bdi>{appeal.reason}</bdi>
              {appeal.decisionReason && (
                <>
                  {' '}
                  Decided by {appeal.decidedBy}: <bdi>{appeal.decisionReason}</bdi>
                </>
              )}
            </span>
          </li>
        ))}
      </ul>
      {mayAppeal && !isOpen && (
        <ReasonedForm
          label="Appeal: what was not right"
          choices={[{ value: 'appeal', text: 'Send the appeal' }]}
          onChoose={(_choice, reason) =>
            appealSheet(sheet.id, reason).then(() => client.invalidateQueries({ queryKey: ['sheets', sheet.id] }))
          }
        />
      )}
    </>
  )
}
