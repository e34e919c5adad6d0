import { Link } from 'wouter'
import { dayInZone } from '#calendar/day-in-zone.ts'
import type { SheetDetail } from '#contract/sheets/sheets.ts'
import { addressTo, paths } from '../../paths.ts'
import { formatDay } from '../../words/format-day.ts'
import { formatTime } from '../../words/format-time.ts'
import { unitZone } from '../../words/unit-zone.ts'
import './history.css'

interface HistoryProps {
  sheet: SheetDetail
  shown: number
  today: string
  timeZone: string | null
}

/** Every revision, and every decision of the training office. */
export function History({ sheet, shown, today, timeZone }: HistoryProps) {
  const when = (at: string) => `${formatDay(dayInZone(at, timeZone ?? unitZone()), today)}, ${formatTime(at, timeZone)}`
  return (
    <ul className="history">
      {sheet.revisions.toReversed().map((revision) => (
        <li key={revision.number}>
          {revision.number === shown ? (
            <b>Revision {revision.number}, shown</b>
          ) : (
            <Link href={addressTo(paths.sheet, { id: sheet.id, revision: revision.number })}>
              Revision {revision.number}
            </Link>
          )}
          <span className="muted">
            {when(revision.at)}, {revision.by}
          </span>
          <span className="history-reason">
            <bdi>{revision.reason ?? 'as it was sent'}</bdi>
          </span>
        </li>
      ))}
      {sheet.decisions.map((decision) => (
        <li key={decision.at}>
          <b>{decision.decision === 'count' ? 'Decided to count' : 'Decided to reject'}</b>
          <span className="muted">
            {when(decision.at)}, {decision.by}
          </span>
          <span className="history-reason">
            <bdi>{decision.reason}</bdi>
            {decision.waived.length > 0 &&
              ` Waived: ${decision.waived.map((rule) => rule.replaceAll('-', ' ')).join(', ')}.`}
          </span>
        </li>
      ))}
    </ul>
  )
}
