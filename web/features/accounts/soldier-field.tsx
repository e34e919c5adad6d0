import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { soldierSearchQuery } from '../../api/soldiers/soldiers.ts'
import { suggestPeople } from '../../domain/soldiers/format-person.ts'
import { TypeAhead } from '../../ui/type-ahead.tsx'

interface SoldierFieldProps {
  /** Whom it holds, as shown; null: nobody. */
  soldier: string | null
  onSoldier: (id: string | null, soldier: string | null) => void
  error?: string | undefined
}

/** The soldier whose account it is, by roster number or name; emptied, nobody. */
export function SoldierField({ soldier, onSoldier, error }: SoldierFieldProps) {
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(soldier ? '' : typed.trim())
  const search = useQuery(soldierSearchQuery(asked))
  const soldiers = search.data?.items ?? []
  return (
    <TypeAhead
      label="Soldier on the roster"
      hint="For sponsor, grader and soldier."
      error={error}
      text={soldier ?? typed}
      picked={soldier !== null}
      searching={asked !== typed.trim() || search.isPlaceholderData || search.isPending}
      suggestions={suggestPeople(soldiers)}
      onText={(text) => {
        setTyped(soldier ? '' : text)
        onSoldier(null, null)
      }}
      onPick={({ id, text, note }) => {
        setTyped('')
        onSoldier(id, [note, text].filter(Boolean).join(' '))
      }}
    />
  )
}
