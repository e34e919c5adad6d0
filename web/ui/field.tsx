import { useId } from 'react'
import './field.css'

interface FieldProps {
  label: string
  error?: string | null
  hint?: string
  className?: string
  children: (id: string, described: string | undefined) => React.ReactNode
}

/** A label, its control, and below it what is wrong with the entry or a hint. */
export function Field({ label, error, hint, className = '', children }: FieldProps) {
  const id = useId()
  const note = error ?? hint
  return (
    <div className={`field ${error ? 'field-wrong' : ''} ${className}`}>
      <label htmlFor={id}>{label}</label>
      {children(id, note ? `${id}-note` : undefined)}
      {note && (
        <p id={`${id}-note`} className="field-note">
          {note}
        </p>
      )}
    </div>
  )
}

type Common = Pick<FieldProps, 'label' | 'error' | 'hint' | 'className'>

/** A text, date or time field. */
export function TextField({ label, error, hint, className, ...input }: Common & React.ComponentProps<'input'>) {
  return (
    <Field label={label} error={error} hint={hint} className={className}>
      {(id, described) => (
        <input id={id} aria-describedby={described} aria-invalid={error ? true : undefined} {...input} />
      )}
    </Field>
  )
}

/** A choice from a short list. */
export function SelectField({ label, error, hint, className, ...select }: Common & React.ComponentProps<'select'>) {
  return (
    <Field label={label} error={error} hint={hint} className={className}>
      {(id, described) => (
        <select id={id} aria-describedby={described} aria-invalid={error ? true : undefined} {...select} />
      )}
    </Field>
  )
}
