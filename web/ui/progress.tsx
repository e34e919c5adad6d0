import { useId } from 'react'
import { figure } from '../words/say-number.ts'
import './progress.css'

interface ProgressProps {
  /** What goes on: "Reading the file". */
  label: string
  done: number
  /** Null while it is not known how much there is. */
  of: number | null
}

/** How far long work is, as a bar and in figures. */
export function Progress({ label, done, of }: ProgressProps) {
  const id = useId()
  return (
    <div className="progress">
      <p id={id}>
        {label}
        {of !== null && `: ${figure(done)} of ${figure(of)}`}
      </p>
      <progress aria-labelledby={id} {...(of === null ? {} : { value: done, max: of })} />
    </div>
  )
}
