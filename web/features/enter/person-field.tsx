import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import type { Soldier } from '#contract/people.ts'
import { soldierSearchQuery } from '../../api/soldiers.ts'
import { listName } from '../../model/say-person.ts'
import { TypeAhead } from '../../ui/type-ahead.tsx'
import type { Person } from './draft.ts'

interface PersonFieldProps {
  label: string
  person: Person | null
  onPerson: (person: Person | null, soldier?: Soldier) => void
  error?: string
  hint?: string
  disabled?: boolean
  autoFocus?: boolean
  className?: string
}

/** A soldier by roster number or name. */
export function PersonField({ label, person, onPerson, ...rest }: PersonFieldProps) {
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(person ? '' : typed.trim())
  const search = useQuery(soldierSearchQuery(asked))
  const soldiers = search.data?.items ?? []
  return (
    <TypeAhead
      label={label}
      text={person ? person.text : typed}
      picked={person !== null}
      searching={search.isFetching || asked !== typed.trim()}
      suggestions={soldiers.map((soldier) => ({ id: soldier.id, text: listName(soldier), note: soldier.rosterNumber }))}
      onText={(text) => {
        setTyped(text)
        onPerson(null)
      }}
      onPick={({ id, text }) => {
        setTyped('')
        onPerson(
          { id, text },
          soldiers.find((soldier) => soldier.id === id),
        )
      }}
      {...rest}
    />
  )
}
