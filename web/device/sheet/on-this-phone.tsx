import { useCallback } from 'react'
import { Link } from 'wouter'
import { formatQueue } from '../../domain/sheets/grading/format-queue.ts'
import { addressTo, gradePaths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { formatUnitTime } from '../../words/format-zone.ts'
import { isUnsent, type KeptSheet } from '../store/kept-sheet.ts'
import { readSheets } from '../store/sheet-store.ts'
import { useKept, useQueue } from '../store/use-kept.ts'
import { SendNow } from './send-now.tsx'
import './on-this-phone.css'

const SAYS = {
  running: 'under way',
  waiting: 'closed, not yet sent',
  refused: 'not taken by the server',
  stored: 'sent',
}

const nameOf = ({ sheet }: KeptSheet): string => {
  const { grade, familyName, rosterNumber } = sheet.head.candidate
  return [grade, familyName || rosterNumber].filter(Boolean).join(' ')
}

interface OnThisPhoneProps {
  accountId: string
  /** Only sheets of this soldier that the server does not have yet. */
  unsentOf?: string
}

/** The sheets an account has on this device, and how sending stands, in words; nothing without any. */
export function OnThisPhone({ accountId, unsentOf }: OnThisPhoneProps) {
  const { value = [] } = useKept(useCallback(() => readSheets(accountId), [accountId]))
  const sheets = unsentOf
    ? value.filter((sheet) => isUnsent(sheet) && sheet.sheet.head.candidate.id === unsentOf)
    : value
  const queue = useQueue(accountId)
  if (sheets.length === 0) return null
  const isWaiting = sheets.some((sheet) => sheet.state === 'waiting')
  const unsent = sheets.filter(isUnsent)
  const sent = sheets.filter((sheet) => !isUnsent(sheet))
  return (
    <Section title="On this phone" note={<span role="status">{formatQueue(sheets, queue.state.phase)}</span>}>
      {isWaiting && (
        <p className="phone-queue">
          {queue.state.message && <span>{queue.state.message}</span>}
          <SendNow queue={queue} />
        </p>
      )}
      <ul className="phone-list">
        {[...unsent, ...sent].map((kept) => (
          <li key={kept.id}>
            <Link href={addressTo(gradePaths.sheet, { id: kept.id })}>
              <b>
                <bdi>{nameOf(kept)}</bdi>
              </b>
            </Link>
            <span className="muted">
              {kept.sheet.head.purpose === 'practice' && 'practice, '}
              {formatUnitTime(kept.sheet.startedAt)}
            </span>
            <span>
              {SAYS[kept.state]}
              {kept.state === 'stored' && kept.answer?.state === 'held' && ', held for the training office'}
              {kept.state === 'refused' && `: ${kept.message}`}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  )
}
