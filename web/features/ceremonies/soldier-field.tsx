import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { soldierSearchQuery } from '../../api/soldiers/soldiers.ts'
import { suggestPeople } from '../../domain/soldiers/format-person.ts'
import { TypeAhead } from '../../ui/type-ahead.tsx'

interface SoldierFieldProps {
  label: string
  hint: string
  onSoldier: (id: string) => void
}

/** Finds a soldier by roster number or name; the field is empty again once one is picked. */
export function SoldierField({ label, hint, onSoldier }: SoldierFieldProps) {
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(typed.trim())
  const search = useQuery(soldierSearchQuery(asked))
  return (
    <TypeAhead
      label={label}
      hint={hint}
      text={typed}
      picked={false}
      searching={asked !== typed.trim() || search.isPlaceholderData || search.isPending}
      suggestions={suggestPeople(search.data?.items ?? [])}
      onText={setTyped}
      onPick={({ id }) => {
        setTyped('')
        onSoldier(id)
      }}
    />
  )
}
