import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useEffect, useState } from 'react'
import type { Soldier } from '#contract/soldiers/soldiers.ts'
import { soldierSearchQuery } from '../../../api/soldiers/soldiers.ts'
import { listName, suggestPeople } from '../../../domain/soldiers/format-person.ts'
import { TypeAhead } from '../../../ui/type-ahead.tsx'
import type { Person } from './draft.ts'
import { onlyMatch } from './only-match.ts'

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

/** A soldier by roster number or name. Who types faster than the list comes gets the one soldier that is meant, or none. */
export function PersonField({ label, person, onPerson, ...rest }: PersonFieldProps) {
  const [typed, setTyped] = useState('')
  const [early, setEarly] = useState(false)
  const asked = useDeferredValue(person ? '' : typed.trim())
  const search = useQuery(soldierSearchQuery(asked))
  const soldiers = search.data?.items ?? []
  const suggestions = suggestPeople(soldiers)
  const searching = asked !== typed.trim() || search.isPlaceholderData || search.isPending

  const pick = (soldier: Soldier) => {
    setTyped('')
    setEarly(false)
    const text = suggestions.find(({ id }) => id === soldier.id)?.text ?? listName(soldier)
    onPerson({ id: soldier.id, text }, soldier)
  }
  const meant = early && !searching && !person ? onlyMatch(soldiers, asked) : undefined
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, when the list has come
  useEffect(() => {
    if (meant) pick(meant)
  }, [meant?.id])

  return (
    <TypeAhead
      label={label}
      text={person ? person.text : typed}
      picked={person !== null}
      searching={searching}
      onEarly={() => setEarly(true)}
      suggestions={suggestions}
      onText={(text) => {
        setTyped(text)
        setEarly(false)
        if (person) onPerson(null)
      }}
      onPick={({ id }) => {
        const soldier = soldiers.find((one) => one.id === id)
        if (soldier) pick(soldier)
      }}
      {...rest}
    />
  )
}
