import { useQuery, useQueryClient } from '@tanstack/react-query'
import type { Session } from '#contract/accounts/session.ts'
import { ownFactorsQuery } from '../../../api/accounts/factors.ts'
import { sessionQuery } from '../../../api/accounts/session.ts'
import { Doorway } from '../../../ui/doorway.tsx'
import { Page } from '../../../ui/page.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { FactorsPart } from './factors-part.tsx'
import '../../../ui/reasoned-form.css'

interface EnrolPageProps {
  session: Session
  signOut: React.ReactNode
}

/** For whoever needs a second factor and has none: sets one up, and there is nothing else to do before. */
export default function EnrolPage({ session, signOut }: EnrolPageProps) {
  const client = useQueryClient()
  const factors = useQuery(ownFactorsQuery)
  return (
    <Doorway>
      <Page
        title="Second factor"
        answer="Set up a second factor first."
        why="An administrator has said that your roles need one. It takes a minute, with your phone in hand; then everything is as you left it."
        error={factors.data ? null : factors.error}
        onRetry={factors.refetch}
      >
        <div className="section">
          <FactorsPart
            name={session.name}
            today={todayIn(null)}
            onReady={() => client.invalidateQueries({ queryKey: sessionQuery.queryKey })}
          />
        </div>
        <div className="section no-print">
          <p className="muted small factor-leave">
            No phone here? Whatever waits on this device stays on it. Sign out, and sign in again where you have it.
          </p>
          {signOut}
        </div>
      </Page>
    </Doorway>
  )
}
