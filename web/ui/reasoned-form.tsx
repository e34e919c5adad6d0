import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from './button.tsx'
import { Failure } from './failure.tsx'
import { Field } from './field.tsx'
import './reasoned-form.css'

interface ReasonedFormProps<Choice extends string> {
  label: string
  choices: readonly { value: Choice; text: string }[]
  onChoose: (choice: Choice, reason: string) => Promise<unknown>
}

/** A reason, and buttons that do something with it; nothing is done without one. */
export function ReasonedForm<Choice extends string>({ label, choices, onChoose }: ReasonedFormProps<Choice>) {
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const isBlank = reason.trim() === ''
  const act = useMutation({ mutationFn: (choice: Choice) => onChoose(choice, reason.trim()) })
  const press = (choice: Choice) => {
    setTried(true)
    if (!isBlank) act.mutate(choice)
  }
  return (
    <div className="reasoned-form">
      <Field label={label} error={tried && isBlank ? 'Say why first.' : null}>
        {(id, described) => (
          <textarea
            id={id}
            aria-describedby={described}
            aria-invalid={(tried && isBlank) || undefined}
            rows={2}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        )}
      </Field>
      <div className="reasoned-form-buttons">
        {choices.map(({ value, text }) => (
          <Button key={value} onClick={() => press(value)} disabled={act.isPending}>
            {text}
          </Button>
        ))}
      </div>
      {act.error && <Failure error={act.error} />}
    </div>
  )
}
