import { useQuery } from '@tanstack/react-query'
import { useEffect, useRef, useState } from 'react'
import { Link, useLocation } from 'wouter'
import { can } from '#access/permissions.ts'
import type { Session } from '#contract/accounts/session.ts'
import { unitsQuery } from '../api/soldiers/units.ts'
import { NoticesLink } from '../features/notices/notices-link.tsx'
import { SearchButton } from '../features/search/search-button.tsx'
import { paths } from '../paths.ts'
import { Button } from '../ui/button.tsx'
import { Mark } from '../ui/mark.tsx'
import { useMedia } from '../ui/use-media.ts'
import { AccountMenu } from './account-menu.tsx'
import { desksOf } from './desks.tsx'
import { type MenuGroup, type MenuItem, menuFor, menuRow } from './menu.ts'
import { ZoneSaid } from './zone-said.tsx'
import './shell.css'

const DESK: MenuItem = { to: paths.overview, text: 'Desk', within: /^\/($|desk\/)/ }

/**
 * What frames every page: name, unit, the few pages of one's role, search, account, and behind a button all pages by what
 * they are about. On a narrow screen only that button is left of the menu.
 */
export function Shell({ session, children }: { session: Session; children: React.ReactNode }) {
  const [path] = useLocation()
  const [open, setOpen] = useState(false)
  const isNarrow = useMedia('(max-width: 66rem)')
  const menuButton = useRef<HTMLButtonElement>(null)
  const units = useQuery(unitsQuery)
  const top = units.data?.find((unit) => unit.parentId === null)
  const roles = desksOf(session.roles).map(({ role }) => role)
  const groups = menuFor(roles)
  const here = [DESK, ...groups.flatMap(({ items }) => items)].find(({ within }) => within.test(path))
  // biome-ignore lint/correctness/useExhaustiveDependencies: going somewhere closes the menu
  useEffect(() => setOpen(false), [path])
  const onKeyDown = (event: React.KeyboardEvent) => {
    if (event.key !== 'Escape' || !open) return
    setOpen(false)
    menuButton.current?.focus()
  }

  return (
    <>
      <a className="skip out-of-sight" href="#main">
        Skip to the page
      </a>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: Escape closes what the menu button opened */}
      <header className="mast" onKeyDown={onKeyDown}>
        <Link href={paths.overview} className="mast-name">
          <Mark />
          Reviewstand
        </Link>
        <span className="mast-unit">
          <bdi>{top?.name}</bdi>
        </span>
        {isNarrow && (
          <span className="mast-here" aria-hidden="true">
            {here?.text}
          </span>
        )}
        {!isNarrow && (
          <nav className="mast-row" aria-label="Main">
            <ul>
              {[DESK, ...menuRow(roles)].map((item) => (
                <Item key={item.to} item={item} isHere={item === here} />
              ))}
            </ul>
          </nav>
        )}
        {can({ roles }, 'see-grades') && <SearchButton />}
        <NoticesLink />
        <Button
          ref={menuButton}
          className="mast-button"
          aria-expanded={open}
          aria-controls="menu"
          onClick={() => setOpen(!open)}
        >
          {isNarrow ? 'Menu' : 'All pages'}
        </Button>
        {!isNarrow && <AccountMenu session={session} />}
        <div id="menu" className="mast-menu" hidden={!open}>
          <nav aria-label="All pages">
            {isNarrow && (
              <ul>
                <Item item={DESK} isHere={DESK === here} />
              </ul>
            )}
            <div className="mast-groups">
              {groups.map((group) => (
                <Group key={group.title} group={group} here={here} />
              ))}
            </div>
          </nav>
          {isNarrow && <AccountMenu session={session} />}
        </div>
      </header>
      <ZoneSaid zone={session.zone} />
      {children}
    </>
  )
}

function Group({ group, here }: { group: MenuGroup; here: MenuItem | undefined }) {
  return (
    <div>
      <p className="mast-group">{group.title}</p>
      <ul>
        {group.items.map((item) => (
          <Item key={item.to} item={item} isHere={item === here} />
        ))}
      </ul>
    </div>
  )
}

function Item({ item, isHere }: { item: MenuItem; isHere: boolean }) {
  return (
    <li>
      <Link href={item.to} aria-current={isHere ? 'page' : undefined}>
        {item.text}
      </Link>
    </li>
  )
}
