import { Link } from 'wouter'
import './tabs.css'

interface TabsProps {
  /** What the ways lead between. */
  label: string
  tabs: readonly { to: string; text: string; isHere: boolean }[]
}

/** The way between pages that belong together; each has an address, so Back and links work. */
export function Tabs({ label, tabs }: TabsProps) {
  return (
    <nav className="tabs no-print" aria-label={label}>
      {tabs.map(({ to, text, isHere }) => (
        <Link key={to} href={to} aria-current={isHere ? 'page' : undefined}>
          {text}
        </Link>
      ))}
    </nav>
  )
}
