import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { unreadQuery } from '../../api/notices/notices.ts'
import { paths } from '../../paths.ts'
import { Count } from '../../ui/count.tsx'
import './notices-link.css'

/** The way to one's notices, with how many are unread; nothing where there are none. */
export function NoticesLink() {
  const unread = useQuery(unreadQuery).data?.unread ?? 0
  if (unread === 0) return null
  return (
    <Link href={paths.notices} className="mast-notices no-print">
      <span className="mast-notices-word">Notices</span> <Count count={unread} what="unread" />
    </Link>
  )
}
