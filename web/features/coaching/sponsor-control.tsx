import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import { addSponsorship, endSponsorship } from '../../api/coaching/coaching.ts'
import { soldierSearchQuery } from '../../api/soldiers/soldiers.ts'
import { useIsImpartial } from '../../api/use-impartial.ts'
import { useMay } from '../../api/use-may.ts'
import { suggestPeople } from '../../domain/soldiers/format-person.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Section } from '../../ui/section.tsx'
import { TypeAhead } from '../../ui/type-ahead.tsx'
import { formatDay, formatDayInFull } from '../../words/format-day.ts'

type Sponsorship = SoldierDetail['sponsors'][number]

/** Who sponsors the soldier; the office ends it and names another. */
export function SponsorControl({ soldier, today }: { soldier: SoldierDetail; today: string }) {
  const client = useQueryClient()
  const isImpartial = useIsImpartial(soldier, today)
  const mayManage = useMay('manage-people') && isImpartial
  const [asked, setAsked] = useState<Sponsorship | 'new' | null>(null)
  const [day, setDay] = useState(today)
  const [typed, setTyped] = useState('')
  const [person, setPerson] = useState<{ id: string; text: string } | null>(null)
  const search = useQuery(soldierSearchQuery(useDeferredValue(person ? '' : typed.trim())))
  const current = soldier.sponsors.filter(({ to }) => to === null || to >= today)
  const ask = (what: Sponsorship | 'new') => {
    setDay(today)
    setPerson(null)
    setTyped('')
    setAsked(what)
  }
  const reload = () =>
    Promise.all(
      ['soldiers', 'coaching', 'sheets', 'retests', 'readiness'].map((subject) =>
        client.invalidateQueries({ queryKey: [subject] }),
      ),
    )
  const name = async () => {
    if (!person) throw new Error('Choose the sponsor from the list first.')
    await addSponsorship(soldier.id, { sponsorId: person.id, from: day, to: null })
    await reload()
  }
  return (
    <Section title="Sponsor">
      {current.length === 0 && <p className="muted">Nobody sponsors this soldier. A test without a sponsor is held.</p>}
      <ul>
        {current.map((one) => (
          <li key={one.id}>
            <bdi>
              <b>{one.sponsorName}</b>
            </bdi>{' '}
            <span className="muted">
              from {formatDay(one.from, today)}
              {one.to && ` to ${formatDay(one.to, today)}`}
            </span>{' '}
            {mayManage && (
              <Button kind="quiet" className="no-print" onClick={() => ask(one)}>
                End it
              </Button>
            )}
          </li>
        ))}
      </ul>
      {mayManage && (
        <p className="no-print">
          <Button onClick={() => ask('new')}>Name a sponsor</Button>
        </p>
      )}
      {asked === 'new' && (
        <ConfirmDialog title="Name a sponsor" confirm="Name them" onConfirm={name} onClose={() => setAsked(null)}>
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
          <DateField label="From" value={day} onDay={setDay} required />
          <p>From that day on they see the whole record of this soldier, and may be named on the sheets as sponsor.</p>
        </ConfirmDialog>
      )}
      {asked !== null && asked !== 'new' && (
        <ConfirmDialog
          title={`End the sponsorship of ${asked.sponsorName}?`}
          confirm="End it"
          onConfirm={() => endSponsorship(soldier.id, asked.id, day).then(reload)}
          onClose={() => setAsked(null)}
        >
          <DateField label="Last day" value={day} onDay={setDay} required />
          <p>
            After {formatDayInFull(day, today)} they no longer see this soldier. Sheets of later days that name them are
            held.
          </p>
        </ConfirmDialog>
      )}
    </Section>
  )
}
