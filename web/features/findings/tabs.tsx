import { Link } from 'wouter'
import { paths } from '../../app/paths.ts'
import { FINDING_FILTERS } from './use-finding.ts'
import './tabs.css'

const TABS = [
  { to: paths.measures, text: 'Failing measures' },
  { to: paths.trend, text: 'Month by month' },
  { to: paths.readings, text: 'Readings' },
  { to: paths.pairs, text: 'Failing together' },
  { to: paths.quality, text: 'Standards as tests' },
  { to: paths.sponsors, text: 'Sponsors' },
  { to: paths.graders, text: 'Graders' },
  { to: paths.timeToCertify, text: 'Time to certify' },
] as const

export type FindingPath = (typeof TABS)[number]['to']

/** The way between the findings, with the filters they share. */
export function FindingTabs({ here, search }: { here: FindingPath; search: string }) {
  const all = new URLSearchParams(search)
  const shared = new URLSearchParams(
    FINDING_FILTERS.flatMap((name) => {
      const value = all.get(name)
      return value ? [[name, value]] : []
    }),
  ).toString()
  return (
    <nav className="tabs no-print" aria-label="Findings">
      {TABS.map(({ to, text }) => (
        <Link key={to} href={shared ? `${to}?${shared}` : to} aria-current={to === here ? 'page' : undefined}>
          {text}
        </Link>
      ))}
    </nav>
  )
}
