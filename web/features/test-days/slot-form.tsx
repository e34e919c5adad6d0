import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { soldierSearchQuery } from '../../api/soldiers/soldiers.ts'
import { addSlots } from '../../api/test-days/test-days.ts'
import { suggestPeople } from '../../domain/soldiers/format-person.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { TypeAhead } from '../../ui/type-ahead.tsx'
import './test-days.css'

interface Grader {
  id: string
  name: string
}

/** Makes many slots at once: from a time to a time, so long each, for each grader named. */
export function SlotForm({ testDayId }: { testDayId: string }) {
  const client = useQueryClient()
  const [times, setTimes] = useState({ from: '08:00', to: '12:00', minutes: '40', pause: '5' })
  const [graders, setGraders] = useState<Grader[]>([])
  const make = useMutation({
    mutationFn: () =>
      addSlots(testDayId, {
        from: times.from,
        to: times.to,
        minutes: Number(times.minutes),
        pause: Number(times.pause),
        graderIds: graders.map(({ id }) => id),
      }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['test-days'] }),
  })
  const field = (name: keyof typeof times) => ({
    value: times[name],
    onChange: (event: React.ChangeEvent<HTMLInputElement>) => setTimes({ ...times, [name]: event.target.value }),
  })
  return (
    <form
      className="form-row"
      onSubmit={(event) => {
        event.preventDefault()
        make.mutate()
      }}
    >
      <TextField label="From" type="time" required {...field('from')} />
      <TextField label="To" type="time" required {...field('to')} />
      <TextField label="Minutes each" type="number" min={5} max={600} required {...field('minutes')} />
      <TextField label="Pause between" type="number" min={0} max={600} required {...field('pause')} />
      <PersonField
        label="Add a grader"
        onPick={(one) => setGraders([...graders.filter(({ id }) => id !== one.id), one])}
      />
      {graders.length > 0 && (
        <ul className="chosen-people" aria-label="Graders">
          {graders.map(({ id, name }) => (
            <li key={id}>
              <bdi>{name}</bdi>{' '}
              <Button kind="quiet" onClick={() => setGraders(graders.filter((one) => one.id !== id))}>
                Leave out<span className="out-of-sight"> {name}</span>
              </Button>
            </li>
          ))}
        </ul>
      )}
      <Button type="submit" kind="main" disabled={make.isPending}>
        Make the slots
      </Button>
      {make.error && <Failure error={make.error} />}
    </form>
  )
}

/** Somebody on the roster, by number or name; empties itself once picked. */
export function PersonField({ label, onPick }: { label: string; onPick: (person: Grader) => void }) {
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(typed.trim())
  const search = useQuery(soldierSearchQuery(asked))
  return (
    <TypeAhead
      label={label}
      text={typed}
      picked={false}
      searching={asked !== typed.trim() || search.isPlaceholderData || search.isPending}
      suggestions={suggestPeople(search.data?.items ?? [])}
      onText={setTyped}
      onPick={({ id, text }) => {
        setTyped('')
        onPick({ id, name: text })
      }}
    />
  )
}
