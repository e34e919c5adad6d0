import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import type { Session } from '#contract/accounts/session.ts'
import { sessionQuery } from '../api/accounts/session.ts'
import type { KeptPage as Kept } from '../device/store/kept-page.ts'
import { readPage } from '../device/store/page-store.ts'
import { FROM_DEVICE } from '../device/store/use-keep-page.ts'
import { Page } from '../ui/page.tsx'
import { formatMoment } from '../words/format-moment.ts'
import { today } from '../words/today.ts'

interface KeptPageProps {
  account: Session
  /** Which page, as it was kept. */
  page: string
  children: React.ReactNode
}

/** A page as it was last open with a network, with the answers that were kept of it; it asks the server nothing it has. */
export function KeptPage({ account, page, children }: KeptPageProps) {
  const [kept, setKept] = useState<{ at: string; client: QueryClient } | null>()
  useEffect(() => {
    let isGone = false
    readPage(account.accountId, page).then(
      (found) => isGone || setKept(found ? { at: found.fetchedAt, client: answering(account, found) } : null),
      () => isGone || setKept(null),
    )
    return () => {
      isGone = true
    }
  }, [account, page])
  if (kept === undefined) return null
  if (kept === null) {
    return (
      <Page
        title="Without a network"
        answer="This page is not on this phone."
        why="It is kept each time it is open with a network. Open it once before you go."
      />
    )
  }
  return (
    <QueryClientProvider client={kept.client}>
      <p className="offline-say" role="status">
        As of {formatMoment(kept.at, today())}, kept on this phone.
      </p>
      {children}
    </QueryClientProvider>
  )
}

const answering = (account: Session, { answers }: Kept): QueryClient => {
  const client = new QueryClient({
    defaultOptions: {
      queries: { staleTime: Number.POSITIVE_INFINITY, retry: false, networkMode: 'always', meta: FROM_DEVICE },
    },
  })
  client.setQueryData(sessionQuery.queryKey, account)
  for (const { key, data } of answers) client.setQueryData(key, data)
  return client
}
