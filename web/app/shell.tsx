import { useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Session } from '#contract/session.ts'
import { type Errand, may } from '../api/may.ts'
import { unitsQuery } from '../api/units.ts'
import { Button } from '../ui/button.tsx'
import { Mark } from '../ui/mark.tsx'
import { AccountMenu } from './account-menu.tsx'
import { paths } from './paths.ts'
import './shell.css'

const MENU: { to: string; text: string; within: RegExp; errand?: Errand }[] = [
  { to: paths.overview, text: 'Overview', within: /^\/$/ },
  { to: paths.stand, text: 'Who can stand', within: /^\/stand$/ },
  { to: paths.candidates, text: 'Candidates', within: /^\/(candidates|sheets)/ },
  { to: paths.enter, text: 'Enter a sheet', within: /^\/enter/, errand: 'enter sheets' },
  { to: paths.held, text: 'Held', within: /^\/held/, errand: 'decide sheets' },
  { to: paths.contested, text: 'Appeals', within: /^\/contested/, errand: 'amend sheets' },
  { to: paths.retests, text: 'Retests', within: /^\/retests/ },
  { to: paths.measures, text: 'Findings', within: /^\/findings/, errand: 'see findings' },
  { to: paths.standards, text: 'Standards', within: /^\/standards/ },
  { to: paths.accounts, text: 'Accounts', within: /^\/accounts/, errand: 'manage accounts' },
  { to: paths.record, text: 'Record', within: /^\/record/, errand: 'read the record' },
]

/** What frames every page: name, unit, menu, account. On a narrow screen the menu folds away behind a button. */
export function Shell({ session, children }: { session: Session; children: React.ReactNode }) {
  const [path] = useLocation()
  const [open, setOpen] = useState(false)
  const units = useQuery(unitsQuery)
  const top = units.data?.find((unit) => unit.parentId === null)
  const here = MENU.find(({ within }) => within.test(path))
  // biome-ignore lint/correctness/useExhaustiveDependencies: going somewhere closes the menu
  useEffect(() => setOpen(false), [path])

  return (
    <>
      <a className="skip out-of-sight" href="#main">
        Skip to the page
      </a>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: Escape closes what the menu button opened */}
      <header className="mast" onKeyDown={(event) => event.key === 'Escape' && setOpen(false)}>
        <Link href={paths.overview} className="mast-name">
          <Mark />
          Reviewstand
        </Link>
        <span className="mast-unit">
          <bdi>{top?.name}</bdi>
        </span>
        <span className="mast-here" aria-hidden="true">
          {here?.text}
        </span>
        <Button className="mast-button" aria-expanded={open} aria-controls="menu" onClick={() => setOpen(!open)}>
          Menu
        </Button>
        <div id="menu" className="mast-menu" data-open={open}>
          <nav aria-label="Main">
            <ul>
              {MENU.filter(({ errand }) => !errand || may(session.roles, errand)).map((item) => (
                <li key={item.to}>
                  <Link href={item.to} aria-current={item === here ? 'page' : undefined} onClick={() => setOpen(false)}>
                    {item.text}
                  </Link>
                </li>
              ))}
            </ul>
          </nav>
          <AccountMenu session={session} />
        </div>
      </header>
      {children}
    </>
  )
}
