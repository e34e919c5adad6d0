import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import type { TestDayDetail } from '#contract/test-days/test-days.ts'
import { bookCandidate } from '../../api/test-days/bookings.ts'
import { newestStandards } from '../../domain/standards/titles.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { formatTime } from '../../words/format-time.ts'
import { PersonField } from './slot-form.tsx'

interface BookFormProps {
  day: TestDayDetail
  standards: readonly Standard[]
}

/** Books anybody on the roster, a first test as well as a retest: in the slot chosen, or in none while there is none free. */
export function BookForm({ day, standards }: BookFormProps) {
  const client = useQueryClient()
  const [candidate, setCandidate] = useState<{ id: string; name: string } | null>(null)
  const [standard, setStandard] = useState('')
  const [slot, setSlot] = useState('')
  const choices = newestStandards(standards.filter(({ publishedAt }) => publishedAt !== null))
  const free = day.slotList.filter(({ taken }) => !taken)
  const wanted = {
    standard: standard || (choices[0]?.code ?? ''),
    slotId: free.some(({ id }) => id === slot) ? slot : (free[0]?.id ?? null),
  }
  const book = useMutation({
    mutationFn: (candidateId: string) => bookCandidate(day.id, { candidateId, ...wanted }),
    onSuccess: async () => {
      setCandidate(null)
      await client.invalidateQueries()
    },
  })
  return (
    <form
      className="form-row"
      onSubmit={(event) => {
        event.preventDefault()
        if (candidate) book.mutate(candidate.id)
      }}
    >
      <PersonField label="Candidate" onPick={setCandidate} />
      {candidate && (
        <p className="chosen-people">
          <bdi>{candidate.name}</bdi>
        </p>
      )}
      <SelectField label="Standard" value={wanted.standard} onChange={(event) => setStandard(event.target.value)}>
        {choices.map(({ code, title }) => (
          <option key={code} value={code}>
            {title}
          </option>
        ))}
      </SelectField>
      <SelectField label="Slot" value={wanted.slotId ?? ''} onChange={(event) => setSlot(event.target.value)}>
        {free.length === 0 && <option value="">None is free: waits for one</option>}
        {free.map(({ id, startsAt, graderName }) => (
          <option key={id} value={id}>
            {formatTime(startsAt, day.zone)}, {graderName ?? 'grader not named yet'}
          </option>
        ))}
      </SelectField>
      <Button type="submit" kind="main" disabled={candidate === null || wanted.standard === '' || book.isPending}>
        Book the candidate
      </Button>
      {book.error && <Failure error={book.error} />}
    </form>
  )
}
