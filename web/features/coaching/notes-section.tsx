import { useInfiniteQuery, useMutation, useQueryClient } from '@tanstack/react-query'
import { lazy, Suspense, useState } from 'react'
import type { CoachingNote } from '#contract/coaching/coaching-notes.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { addNote, changeNote, coachingNotesQuery, removeNote, restoreNote } from '../../api/coaching/coaching.ts'
import { measureTitle, standardTitle } from '../../domain/standards/titles.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { More } from '../../ui/more.tsx'
import { Section } from '../../ui/section.tsx'
import { UndoNotice } from '../../ui/undo-notice.tsx'
import { formatDay } from '../../words/format-day.ts'
import './notes-section.css'

const NoteForm = lazy(() => import('./note-form.tsx'))

interface NotesSectionProps {
  candidateId: string
  /** The standard a new note is about, unless another is chosen. */
  standard: string
  standards: readonly Standard[]
  /** Whether the reader coaches this candidate, or is of the office. */
  mayWrite: boolean
  today: string
}

/** What was drilled, day by day, by whom; who coaches writes here. */
export function NotesSection({ candidateId, standard, standards, mayWrite, today }: NotesSectionProps) {
  const client = useQueryClient()
  const notes = useInfiniteQuery(coachingNotesQuery(candidateId))
  const [editing, setEditing] = useState<CoachingNote | 'new' | null>(null)
  const [removed, setRemoved] = useState<string | null>(null)
  const reload = () => client.invalidateQueries({ queryKey: ['coaching-notes', candidateId] })
  const remove = useMutation({
    mutationFn: (id: string) => removeNote(id),
    onSuccess: (_, id) => {
      setRemoved(id)
      return reload()
    },
  })
  const items = notes.data?.pages.flatMap((page) => page.items)
  if (!items) return null
  return (
    <Section title="Coaching notes" note="what was drilled; never part of a test">
      {removed && (
        <UndoNotice
          text="The note is removed."
          onUndo={() => restoreNote(removed).then(reload)}
          onClose={() => setRemoved(null)}
        />
      )}
      {remove.error && <Failure error={remove.error} />}
      {mayWrite && editing === null && (
        <p className="no-print">
          <Button onClick={() => setEditing('new')}>Write a note</Button>
        </p>
      )}
      {editing !== null && (
        <Suspense>
          <NoteForm
            key={editing === 'new' ? 'new' : editing.id}
            note={editing === 'new' ? null : editing}
            standard={standard}
            standards={standards}
            today={today}
            onSave={(body) =>
              (editing === 'new' ? addNote(candidateId, body) : changeNote(editing.id, body)).then(reload)
            }
            onClose={() => setEditing(null)}
          />
        </Suspense>
      )}
      {items.length === 0 && <p className="muted">Nothing is written down yet.</p>}
      <ul className="notes">
        {items.map((note) => (
          <li key={note.id}>
            <p>
              <b>{formatDay(note.on, today)}</b>{' '}
              <span className="muted">
                <bdi>{note.by}</bdi>
                {note.changedAt && ', changed since'}
              </span>
            </p>
            <p className="muted">
              {[
                standardTitle(standards, note.standard),
                ...note.measures.map((code) => measureTitle(standards, note.standard, code)),
              ].join(' · ')}
            </p>
            {note.text && (
              <p className="notes-text">
                <bdi>{note.text}</bdi>
              </p>
            )}
            <p className="no-print">
              {note.mayChange && (
                <Button kind="quiet" onClick={() => setEditing(note)}>
                  Change
                </Button>
              )}{' '}
              {note.mayRemove && (
                <Button kind="quiet" disabled={remove.isPending} onClick={() => remove.mutate(note.id)}>
                  Remove
                </Button>
              )}
            </p>
          </li>
        ))}
      </ul>
      <More hasMore={notes.hasNextPage} loading={notes.isFetchingNextPage} onMore={notes.fetchNextPage}>
        Show earlier notes
      </More>
    </Section>
  )
}
