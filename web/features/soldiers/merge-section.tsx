import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { dayInZone } from '#calendar/day-in-zone.ts'
import type { Soldier, Unit } from '#contract/soldiers/soldiers.ts'
import { invalidatePeople, mergesQuery, undoMerge } from '../../api/soldiers/people.ts'
import { soldierSearchQuery } from '../../api/soldiers/soldiers.ts'
import { suggestPeople } from '../../domain/soldiers/format-person.ts'
import { ReasonedForm } from '../../ui/reasoned-form.tsx'
import { Section } from '../../ui/section.tsx'
import { TypeAhead } from '../../ui/type-ahead.tsx'
import { formatDay } from '../../words/format-day.ts'
import { unitZone } from '../../words/unit-zone.ts'
import { MergePreview } from './merge-preview.tsx'

interface MergeSectionProps {
  soldier: Soldier
  units: readonly Unit[]
  today: string
  onSaid: (said: string) => void
}

/** Merges another entry of the same soldier into this one, after showing what that does; and takes it back. */
export function MergeSection({ soldier, units, today, onSaid }: MergeSectionProps) {
  const client = useQueryClient()
  const [other, setOther] = useState<{ id: string; text: string } | null>(null)
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(other ? '' : typed.trim())
  const search = useQuery(soldierSearchQuery(asked))
  const merges = useQuery(mergesQuery(soldier.id)).data ?? []
  const found = (search.data?.items ?? []).filter(({ id }) => id !== soldier.id)
  const done = (said: string) => {
    setOther(null)
    setTyped('')
    onSaid(said)
    return invalidatePeople(client)
  }
  return (
    <Section title="Entered twice?" note="this entry is kept, the other one closed; it can be undone">
      <div className="people-form">
        <TypeAhead
          label="The other entry"
          hint="By roster number or name."
          text={other?.text ?? typed}
          picked={other !== null}
          searching={asked !== typed.trim() || search.isPlaceholderData || search.isPending}
          suggestions={suggestPeople(found)}
          onText={(text) => {
            setTyped(other ? '' : text)
            setOther(null)
          }}
          onPick={({ id, text, note }) => setOther({ id, text: [note, text].filter(Boolean).join(' ') })}
        />
        {other && (
          <MergePreview
            key={other.id}
            keptId={soldier.id}
            awayId={other.id}
            units={units}
            today={today}
            onDone={done}
          />
        )}
      </div>
      <ul className="people-list">
        {merges.map((merge) => (
          <li key={merge.id}>
            <span className="people-when">{formatDay(dayInZone(merge.at, unitZone()), today)}</span>
            <span>
              {merge.undoneAt ? 'Merged and taken apart again' : <bdi>{merge.away} was merged into this entry</bdi>}
              <span className="muted"> {merge.undoReason ?? merge.reason}</span>
            </span>
            {!merge.undoneAt && (
              <details className="people-form">
                <summary>Undo this merge</summary>
                <ReasonedForm
                  label="Why are they two?"
                  choices={[{ value: 'undo', text: 'Take them apart' }]}
                  onChoose={async (_, reason) => {
                    await undoMerge(merge.id, reason)
                    await done('They are two entries again, each with what it had.')
                  }}
                />
              </details>
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}
