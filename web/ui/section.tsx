import { useId } from 'react'
import './section.css'

interface SectionProps {
  title: string
  note?: React.ReactNode
  /** A way on, at the right of the title. */
  more?: React.ReactNode
  className?: string
  children: React.ReactNode
}

/** A part of a page under a heavy rule. */
export function Section({ title, note, more, className = '', children }: SectionProps) {
  const id = useId()
  return (
    <section className={`section ${className}`} aria-labelledby={id}>
      <div className="section-head">
        <h2 id={id}>{title}</h2>
        {note && <span className="section-note">{note}</span>}
        {more && <span className="section-more">{more}</span>}
      </div>
      {children}
    </section>
  )
}
