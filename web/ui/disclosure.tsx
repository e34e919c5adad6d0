import './disclosure.css'

interface DisclosureProps {
  title: string
  /** What can be said without opening it: how many. */
  note?: React.ReactNode
  /** Stands open from the start. */
  open?: boolean
  children: React.ReactNode
}

/** A line that opens to what is behind it. */
export function Disclosure({ title, note, open, children }: DisclosureProps) {
  return (
    <details className="disclosure" open={open}>
      <summary>
        <span>{title}</span>
        {note && <span className="disclosure-note">{note}</span>}
      </summary>
      {children}
    </details>
  )
}
