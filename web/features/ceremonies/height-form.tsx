import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { setHeight } from '../../api/ceremonies/ceremonies.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'

/** Takes the height of a soldier for posts with a height band. */
export function HeightForm({ soldierId, name }: { soldierId: string; name: string }) {
  const client = useQueryClient()
  const [typed, setTyped] = useState('')
  const save = useMutation({
    mutationFn: () => setHeight(soldierId, Number(typed)),
    onSuccess: () => client.invalidateQueries({ queryKey: ['ceremonies'] }),
  })
  return (
    <form
      className="height-form field"
      onSubmit={(event) => {
        event.preventDefault()
        save.mutate()
      }}
    >
      <input
        type="number"
        required
        min={100}
        max={250}
        step={1}
        aria-label={`Height of ${name} in centimetres`}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
      <span>cm</span>
      <Button type="submit" disabled={save.isPending}>
        Keep
      </Button>
      {save.error && <Failure error={save.error} />}
    </form>
  )
}
