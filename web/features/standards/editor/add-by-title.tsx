import { Button } from '../../../ui/button.tsx'
import { TextField } from '../../../ui/field.tsx'

/** A title, and Enter adds something of that title; the field is free for the next one at once. */
export function AddByTitle({ label, onAdd }: { label: string; onAdd: (title: string) => void }) {
  return (
    <form
      className="draft-add"
      onSubmit={(event) => {
        event.preventDefault()
        const field = event.currentTarget.elements[0] as HTMLInputElement
        if (field.value.trim()) onAdd(field.value.trim())
        field.value = ''
      }}
    >
      <TextField label={label} name="title" autoComplete="off" maxLength={400} />
      <Button type="submit">Add</Button>
    </form>
  )
}
