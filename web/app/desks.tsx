import { useQuery, useQueryClient } from '@tanstack/react-query'
import { lazy, useEffect } from 'react'
import { DESK_ORDER } from '#contract/accounts/desk-order.ts'
import type { Session } from '#contract/accounts/session.ts'
import { sessionQuery } from '../api/accounts/session.ts'
import { ROLE_WORDS, type Role } from '../domain/accounts/roles.ts'
import { addressTo, paths } from '../paths.ts'
import { Tabs } from '../ui/tabs.tsx'
import { NotYourDesk } from './not-yours.tsx'

/** The desk of each role. One in `features/<role>/desk.tsx` is named in the page already, so that it comes with the first load. */
export const DESKS = [
  { role: 'office', Desk: lazy(() => import('../features/desks/office/desk.tsx')) },
  { role: 'commander', Desk: lazy(() => import('../features/desks/commander/desk.tsx')) },
  { role: 'leader', Desk: lazy(() => import('../features/desks/leader/desk.tsx')) },
  { role: 'sponsor', Desk: lazy(() => import('../features/desks/sponsor/desk.tsx')) },
  { role: 'grader', Desk: lazy(() => import('../features/desks/grader/desk.tsx')) },
  { role: 'soldier', Desk: lazy(() => import('./own-record.tsx')) },
  { role: 'administrator', Desk: lazy(() => import('../features/desks/administrator/desk.tsx')) },
] as const satisfies readonly { role: Role; Desk: React.ComponentType }[]

/** The desks of somebody with these roles, first the one that `/` shows. An account without a role is a soldier's. */
export const desksOf = (roles: readonly Role[]) => {
  const own = DESK_ORDER.filter((role) => roles.includes(role))
  return (own.length > 0 ? own : ['soldier']).flatMap((each) => DESKS.filter(({ role }) => role === each))
}

/** The desks of those who need pages about people where there is no network. */
const ON_THE_FIELD: readonly Role[] = ['sponsor', 'soldier']

/** With a network, the pages of a sponsor's candidates and one's own come down for when there is none; nothing waits for it. */
function useKeepCandidates(session: Session | null | undefined) {
  const client = useQueryClient()
  useEffect(() => {
    if (!session || !desksOf(session.roles).some(({ role }) => ON_THE_FIELD.includes(role))) return
    // Where the app is not on the device, no page opens without a network.
    navigator.serviceWorker?.ready
      .then(() => import('./keep-candidates.ts'))
      .then(({ keepCandidates }) => keepCandidates(client, session, () => new Date()))
      .catch(() => undefined)
  }, [client, session])
}

/** A desk of whoever is signed in: the one of a role (`/desk/leader`), or without one the first they have. */
export function DeskPage({ of }: { of?: string }) {
  const session = useQuery(sessionQuery).data
  const desks = desksOf(session?.roles ?? [])
  useKeepCandidates(session)
  const desk = of ? desks.find(({ role }) => role === of) : desks[0]
  if (!desk) return <NotYourDesk role={of ?? ''} />
  const ways = desks.map(({ role }) => ({
    to: addressTo(paths.desk, { role }),
    text: ROLE_WORDS.find((word) => word.role === role)?.title ?? role,
    isHere: role === desk.role,
  }))
  return (
    <>
      {ways.length > 1 && <Tabs label="Desks" tabs={ways} />}
      <desk.Desk />
    </>
  )
}
