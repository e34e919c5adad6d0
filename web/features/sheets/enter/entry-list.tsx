import { Link } from 'wouter'
import { formatStored } from '../../../domain/sheets/format-score.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Section } from '../../../ui/section.tsx'
import type { Entry } from './entry-store.ts'
import type { Arrival } from './use-entries.ts'

interface EntryListProps {
  entries: readonly Entry[]
  arrivals: readonly Arrival[]
  standardTitle: (id: string) => string
  onOpen: (entry: Entry) => void
  onSend: (entry: Entry) => void
  onDiscard: (id: string) => void
}

const SAYS = { open: 'set aside, not sent', waiting: 'waits to be sent', refused: 'was not taken' }

/** The other sheets on this device, and those that got through lately. */
export function EntryList({ entries, arrivals, standardTitle, onOpen, onSend, onDiscard }: EntryListProps) {
  if (entries.length === 0 && arrivals.length === 0) return null
  const label = ({ draft }: Entry) => draft.candidate?.text ?? 'A sheet without a candidate'
  return (
    <Section title="On this device" note="kept here until the server has them">
      <ul className="enter-list">
        {entries.map((entry) => (
          <li key={entry.draft.id}>
            <b>
              <bdi>{label(entry)}</bdi>
            </b>
            <span className="muted">{standardTitle(entry.draft.standardId)}</span>
            <span>
              {SAYS[entry.state]}
              {entry.message && `: ${entry.message}`}
            </span>
            {entry.state === 'waiting' && (
              <Button kind="quiet" onClick={() => onSend(entry)}>
                Try now
              </Button>
            )}
            <Button kind="quiet" onClick={() => onOpen(entry)}>
              Open
            </Button>
            <Button
              kind="quiet"
              onClick={() => {
                if (
                  confirm(`Discard the sheet of ${label(entry)} on this device? It has not been saved on the server.`)
                ) {
                  onDiscard(entry.draft.id)
                }
              }}
            >
              Throw away
            </Button>
          </li>
        ))}
        {arrivals.map(({ entry, sent }) => (
          <li key={entry.draft.id}>
            <Link href={addressTo(paths.sheet, { id: entry.draft.id })}>
              <b>
                <bdi>{label(entry)}</bdi>
              </b>
            </Link>
            <span>{formatStored(sent.stored, entry.draft.purpose === 'practice')}</span>
          </li>
        ))}
      </ul>
    </Section>
  )
}
