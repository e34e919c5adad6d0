import { useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Practice } from '#contract/coaching/practices.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { removePractice } from '../../api/coaching/practices.ts'
import { formatFaultsNoted, formatTried } from '../../domain/coaching/format-practice.ts'
import { faultTitle, measureTitle } from '../../domain/standards/titles.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { formatDay } from '../../words/format-day.ts'
import './notes-section.css'

interface PracticeListProps {
  practices: readonly Practice[]
  standards: readonly Standard[]
  today: string
}

/** Practice of chosen measures, the latest first: when, with whom, and how each measure went. */
export function PracticeList({ practices, standards, today }: PracticeListProps) {
  const client = useQueryClient()
  const [removed, setRemoved] = useState<Practice | null>(null)
  return (
    <>
      <ul className="notes">
        {practices.map((practice) => (
          <li key={practice.id}>
            <p>
              <b>{formatDay(practice.on, today)}</b>{' '}
              <span className="muted">
                with <bdi>{practice.by}</bdi>
                {practice.arm && `, ${practice.arm}`}
              </span>
            </p>
            <ul>
              {practice.measures.map((measure) => (
                <li key={measure.code}>
                  {measureTitle(standards, practice.standard, measure.code)}: {formatTried(measure)}
                  <Faults text={formatFaultsNoted(measure, titlesOf(standards, practice.standard, measure.code))} />
                </li>
              ))}
            </ul>
            {practice.mayRemove && (
              <p className="no-print">
                <Button kind="quiet" onClick={() => setRemoved(practice)}>
                  Delete
                </Button>
              </p>
            )}
          </li>
        ))}
      </ul>
      {removed && (
        <ConfirmDialog
          title="Delete this practice?"
          confirm="Delete it"
          onConfirm={() =>
            removePractice(removed.id).then(() =>
              Promise.all(
                ['practices', 'coaching'].map((subject) => client.invalidateQueries({ queryKey: [subject] })),
              ),
            )
          }
          onClose={() => setRemoved(null)}
        >
          <p>
            What was marked on {formatDay(removed.on, today)} is gone for good. It counts for nothing, so nobody’s
            standing changes.
          </p>
        </ConfirmDialog>
      )}
    </>
  )
}

const titlesOf = (standards: readonly Standard[], standard: string, measure: string) => (fault: string) =>
  faultTitle(standards, standard, measure, fault)

function Faults({ text }: { text: string }) {
  return text === '' ? null : <span className="muted"> · {text}</span>
}
