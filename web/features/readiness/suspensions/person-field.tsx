import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { soldierSearchQuery } from '../../../api/soldiers/soldiers.ts'
import { suggestPeople } from '../../../domain/soldiers/format-person.ts'
import { TypeAhead } from '../../../ui/type-ahead.tsx'

interface PersonFieldProps {
  label: string
  chosen: { id: string; text: string } | null
  onChoose: (person: { id: string; text: string } | null) => void
  error: string | null
}

/** A soldier one may see, found by roster number or the start of the name. */
export function PersonField({ label, chosen, onChoose, error }: PersonFieldProps) {
  const [text, setText] = useState(chosen?.text ?? '')
  const found = useQuery(soldierSearchQuery(chosen ? '' : text.trim()))
  const suggestions = suggestPeople(found.data?.items ?? [])
  return (
    <TypeAhead
      label={label}
      hint="Roster number or name"
      error={error}
      text={text}
      onText={(typed) => {
        setText(typed)
        onChoose(null)
      }}
      suggestions={suggestions}
      searching={found.isFetching}
      picked={chosen !== null}
      onPick={(person) => {
        setText(person.text)
        onChoose(person)
      }}
    />
  )
}
