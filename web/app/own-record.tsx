import { useQuery } from '@tanstack/react-query'
import { sessionQuery } from '../api/accounts/session.ts'
import Candidate from '../features/coaching/page.tsx'
import { Page } from '../ui/page.tsx'

/** A soldier's desk is their own record. */
export default function OwnRecord() {
  const soldierId = useQuery(sessionQuery).data?.soldierId
  if (soldierId) return <Candidate id={soldierId} />
  return (
    <Page
      title="My record"
      answer="This account is not linked to anyone on the roster yet."
      why="Ask the administrator to link it to a soldier; your record then shows here."
    />
  )
}
