import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { TestDayDetail } from '#contract/test-days/test-days.ts'
import { changeTestDay } from '../../api/test-days/test-days.ts'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'

/** Place and day of a test day on which nothing took place. */
export function ChangeForm({ day }: { day: TestDayDetail }) {
  const client = useQueryClient()
  const [on, setOn] = useState(day.on)
  const [place, setPlace] = useState(day.place)
  const change = useMutation({
    mutationFn: () => changeTestDay(day.id, { on, place: place.trim() }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['test-days'] }),
  })
  const isSame = on === day.on && place.trim() === day.place
  return (
    <form
      className="form-row"
      onSubmit={(event) => {
        event.preventDefault()
        change.mutate()
      }}
    >
      <TextField label="Place" value={place} maxLength={400} onChange={(event) => setPlace(event.target.value)} />
      <DateField label="Day" value={on} onDay={setOn} />
      <Button type="submit" disabled={change.isPending || isSame}>
        Change it
      </Button>
      {change.error && <Failure error={change.error} />}
    </form>
  )
}
