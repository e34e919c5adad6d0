import { Link } from 'wouter'
import './tabs.css'

/** The way between the findings, with the filters both share. */
export function FindingTabs({ here, search }: { here: 'measures' | 'sponsors'; search: string }) {
  const tabs = [
    { key: 'measures', text: 'Failing measures' },
    { key: 'sponsors', text: 'Sponsors' },
  ] as const
  return (
    <nav className="tabs no-print" aria-label="Findings">
      {tabs.map(({ key, text }) => (
        <Link
          key={key}
          href={`/findings/${key}${search ? `?${search}` : ''}`}
          aria-current={key === here ? 'page' : undefined}
        >
          {text}
        </Link>
      ))}
    </nav>
  )
}
