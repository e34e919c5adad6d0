import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { CommandersWords } from '#contract/readiness/commanders-words.ts'
import { commandersWordsQuery, invalidateStandings, takeBack } from '../../api/readiness/commanders-words.ts'
import { useIsImpartial } from '../../api/use-impartial.ts'
import { useMay } from '../../api/use-may.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Field } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDay } from '../../words/format-day.ts'
import { ExtendDialog } from './extend-dialog.tsx'
import type { Candidate } from './use-candidate.ts'
import { wordLines } from './word-lines.ts'

type Extendable = CommandersWords['extendable'][number]

/** What a commander decided about the soldier's certifications, and where one may be extended or a word taken back. */
export function WordsSection({ soldier, titles, today }: Candidate) {
  const words = useQuery(commandersWordsQuery(soldier.id)).data
  const may = useMay('approve-awards')
  const isImpartial = useIsImpartial(soldier, today)
  const client = useQueryClient()
  const [extending, setExtending] = useState<Extendable | null>(null)
  const [taking, setTaking] = useState<{ kind: 'approvals' | 'extensions'; id: string; what: string } | null>(null)
  if (!words) return null
  const lines = wordLines(words, titles.certification, today)
  const mayDecide = may && isImpartial
  const extendable = mayDecide ? words.extendable : []
  if (lines.length === 0 && extendable.length === 0) return null
  return (
    <Section title="Commander’s decisions" note="the latest first">
      <ul className="plain">
        {lines.map(({ id, kind, what, isTakenBack }) => (
          <li key={id} className={isTakenBack ? 'muted' : undefined}>
            <bdi>{what}</bdi>{' '}
            {mayDecide && !isTakenBack && (
              <Button kind="quiet" className="no-print" onClick={() => setTaking({ kind, id, what })}>
                Take back
              </Button>
            )}
          </li>
        ))}
        {extendable.map((one) => (
          <li key={one.certification} className="no-print">
            <Button onClick={() => setExtending(one)}>
              Extend {titles.certification(one.certification)}, valid through {formatDay(one.validThrough, today)}
            </Button>
          </li>
        ))}
      </ul>
      {extending && (
        <ExtendDialog
          soldier={soldier}
          extendable={extending}
          title={titles.certification(extending.certification)}
          onClose={() => setExtending(null)}
        />
      )}
      {taking && (
        <TakeBackDialog
          what={taking.what}
          onTakeBack={async (reason) => {
            await takeBack(taking.kind, taking.id, reason)
            await invalidateStandings(client)
          }}
          onClose={() => setTaking(null)}
        />
      )}
    </Section>
  )
}

interface TakeBackDialogProps {
  what: string
  onTakeBack: (reason: string) => Promise<void>
  onClose: () => void
}

function TakeBackDialog({ what, onTakeBack, onClose }: TakeBackDialogProps) {
  const [reason, setReason] = useState('')
  const confirm = async () => {
    if (reason.trim() === '') throw new Error('Say why first; the reason goes on record.')
    await onTakeBack(reason.trim())
  }
  return (
    <ConfirmDialog title="Take this back?" confirm="Take it back" onConfirm={confirm} onClose={onClose}>
      <p>
        <bdi>{what}</bdi>
      </p>
      <p>It then counts no more, on no day. It stays on record with your reason.</p>
      <Field label="Reason">
        {(id) => <textarea id={id} rows={2} value={reason} onChange={(event) => setReason(event.target.value)} />}
      </Field>
    </ConfirmDialog>
  )
}
