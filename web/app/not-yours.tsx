import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { type Permission, rolesWith } from '#access/permissions.ts'
import { sessionQuery } from '../api/accounts/session.ts'
import { listRoles } from '../domain/accounts/roles.ts'
import { paths } from '../paths.ts'
import { Page } from '../ui/page.tsx'
import { formatWhoseDesk, formatWhosePage } from './format-whose.ts'

/** Stands in place of a page that is for other roles: whose it is, and the way back. */
export function NotYours({ title, permission }: { title: string; permission: Permission }) {
  return <Elsewhere title={title} answer={formatWhosePage(title, rolesWith(permission))} />
}

/** The same for the desk of a role that one does not have. */
export function NotYourDesk({ role }: { role: string }) {
  return <Elsewhere title="Desk" answer={formatWhoseDesk(role)} />
}

function Elsewhere({ title, answer }: { title: string; answer: string }) {
  const roles = useQuery(sessionQuery).data?.roles ?? []
  const own = listRoles(roles).toLowerCase() || 'soldier'
  return (
    <Page
      title={title}
      answer={answer}
      why={
        <>
          You are signed in as {own}. Go to <Link href={paths.overview}>your desk</Link>; if you need this page, ask the
          administrator for the role.
        </>
      }
    />
  )
}
