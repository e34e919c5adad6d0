import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Soldier, SoldierChange, Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import { changesQuery, invalidatePeople, removeChange } from '../../api/soldiers/people.ts'
import { Button } from '../../ui/button.tsx'
import { ReasonedForm } from '../../ui/reasoned-form.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDay } from '../../words/format-day.ts'
import { ChangeForm } from './change-form.tsx'
import { formatChange } from './format-people.ts'

interface ChangesSectionProps {
  soldier: Soldier
  units: readonly Unit[]
  certifications: readonly Certification[]
  today: string
  onSaid: (said: string) => void
}

type Doing = { what: 'nothing' } | { what: 'entering' } | { what: 'correcting' | 'removing'; change: SoldierChange }

/** What was entered, the latest first; new entries and corrections of the past. */
export function ChangesSection({ soldier, units, certifications, today, onSaid }: ChangesSectionProps) {
  const [doing, setDoing] = useState<Doing>({ what: 'nothing' })
  const client = useQueryClient()
  const changes = useQuery(changesQuery(soldier.id)).data ?? []
  const stop = () => setDoing({ what: 'nothing' })
  const done = (said: string) => {
    stop()
    onSaid(said)
  }
  const isAt = (what: Doing['what'], id: number) => doing.what === what && 'change' in doing && doing.change.id === id
  return (
    <Section
      title="What was entered"
      note="the latest first"
      more={
        <Button kind="quiet" onClick={() => setDoing({ what: 'entering' })}>
          Enter a change
        </Button>
      }
    >
      {doing.what === 'entering' && (
        <ChangeForm {...{ soldier, units, certifications }} change={null} onDone={done} onCancel={stop} />
      )}
      <ul className="people-list">
        {[...changes].reverse().map((change) => (
          <li key={change.id}>
            <span className="people-when">from {formatDay(change.from, today)}</span>
            <span>{formatChange(change, units)}</span>
            <span className="people-acts">
              <Button
                kind="quiet"
                aria-label={`Correct what was entered from ${change.from}`}
                onClick={() => setDoing({ what: 'correcting', change })}
              >
                Correct
              </Button>
              {changes.length > 1 && (
                <Button
                  kind="quiet"
                  aria-label={`Take back what was entered from ${change.from}`}
                  onClick={() => setDoing({ what: 'removing', change })}
                >
                  Take back
                </Button>
              )}
            </span>
            {isAt('correcting', change.id) && (
              <ChangeForm {...{ soldier, units, certifications }} change={change} onDone={done} onCancel={stop} />
            )}
            {isAt('removing', change.id) && (
              <div className="people-form">
                <ReasonedForm
                  label="Why is it taken back?"
                  choices={[{ value: 'remove', text: 'Take it back' }]}
                  onChoose={async (_, reason) => {
                    await removeChange(soldier.id, change.id, reason)
                    done('It is taken back, and everything that depends on it follows.')
                    await invalidatePeople(client)
                  }}
                />
              </div>
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}
