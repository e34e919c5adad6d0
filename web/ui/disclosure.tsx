import './disclosure.css'

interface DisclosureProps {
  title: string
  /** What can be said without opening it: how many. */
  note?: React.ReactNode
  children: React.ReactNode
}

/** A line that opens to what is behind it. */
export function Disclosure({ title, note, children }: DisclosureProps) {
  return (
    <details className="disclosure">
      <summary>
        <span>{title}</span>
        {note && <span className="disclosure-note">{note}</span>}
      </summary>
      {children}
    </details>
  )
}
