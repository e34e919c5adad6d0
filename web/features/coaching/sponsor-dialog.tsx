import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import { addSponsorship, endSponsorship } from '../../api/coaching/coaching.ts'
import { soldierSearchQuery } from '../../api/soldiers/soldiers.ts'
import { suggestPeople } from '../../domain/soldiers/format-person.ts'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { TypeAhead } from '../../ui/type-ahead.tsx'
import { formatDayInFull } from '../../words/format-day.ts'

interface SponsorDialogProps {
  soldier: SoldierDetail
  /** The sponsorship to end; null: to name a sponsor. */
  ending: SoldierDetail['sponsors'][number] | null
  today: string
  onClose: () => void
}

/** Names a sponsor from a day on, or ends a sponsorship on one. */
export default function SponsorDialog({ soldier, ending, today, onClose }: SponsorDialogProps) {
  const client = useQueryClient()
  const [day, setDay] = useState(today)
  const reload = () =>
    Promise.all(
      ['soldiers', 'coaching', 'sheets', 'retests', 'readiness'].map((subject) =>
        client.invalidateQueries({ queryKey: [subject] }),
      ),
    )
  if (ending === null) return <Naming soldier={soldier} day={day} onDay={setDay} onNamed={reload} onClose={onClose} />
  return (
    <ConfirmDialog
      title={`End the sponsorship of ${ending.sponsorName}?`}
      confirm="End it"
      onConfirm={() => endSponsorship(soldier.id, ending.id, day).then(reload)}
      onClose={onClose}
    >
      <DateField label="Last day" value={day} onDay={setDay} required />
      <p>
        After {formatDayInFull(day, today)} they no longer see this soldier. Sheets of later days that name them are
        held.
      </p>
    </ConfirmDialog>
  )
}

interface NamingProps {
  soldier: SoldierDetail
  day: string
  onDay: (day: string) => void
  onNamed: () => Promise<unknown>
  onClose: () => void
}

function Naming({ soldier, day, onDay, onNamed, onClose }: NamingProps) {
  const [typed, setTyped] = useState('')
  const [person, setPerson] = useState<{ id: string; text: string } | null>(null)
  const search = useQuery(soldierSearchQuery(useDeferredValue(person ? '' : typed.trim())))
  const name = async () => {
    if (!person) throw new Error('Choose the sponsor from the list first.')
    await addSponsorship(soldier.id, { sponsorId: person.id, from: day, to: null })
    await onNamed()
  }
  return (
    <ConfirmDialog title="Name a sponsor" confirm="Name them" onConfirm={name} onClose={onClose}>
      <TypeAhead
        label="Sponsor"
        text={person ? person.text : typed}
        picked={person !== null}
        searching={search.isFetching}
        onEarly={() => {}}
        suggestions={suggestPeople((search.data?.items ?? []).filter(({ id }) => id !== soldier.id))}
        onText={(text) => {
          setTyped(text)
          setPerson(null)
        }}
        onPick={({ id, text }) => setPerson({ id, text })}
      />
      <DateField label="From" value={day} onDay={onDay} required />
      <p>From that day on they see the whole record of this soldier, and may be named on the sheets as sponsor.</p>
    </ConfirmDialog>
  )
}
