import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { soldierQuery, soldierSearchQuery } from '../../api/soldiers/soldiers.ts'
import { listName, suggestPeople } from '../../domain/soldiers/format-person.ts'
import { TypeAhead } from '../../ui/type-ahead.tsx'

interface SoldierFilterProps {
  /** Whose entries are shown; '': everybody's. */
  id: string
  onSoldier: (id: string) => void
}

/** Whose entries to show, by roster number or name. The address holds the id alone: names do not belong there. */
export function SoldierFilter({ id, onSoldier }: SoldierFilterProps) {
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(id ? '' : typed.trim())
  const search = useQuery(soldierSearchQuery(asked))
  const chosen = useQuery(soldierQuery(id)).data
  const shown = id ? (chosen ? `${chosen.rosterNumber} ${listName(chosen)}` : 'One soldier') : typed
  return (
    <TypeAhead
      label="About a soldier"
      text={shown}
      picked={id !== ''}
      searching={asked !== typed.trim() || search.isPlaceholderData || search.isPending}
      suggestions={suggestPeople(search.data?.items ?? [])}
      onText={(text) => {
        setTyped(id ? '' : text)
        if (id) onSoldier('')
      }}
      onPick={(picked) => {
        setTyped('')
        onSoldier(picked.id)
      }}
    />
  )
}
