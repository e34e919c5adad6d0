import { useQuery } from '@tanstack/react-query'
import type { Session } from '#contract/accounts/session.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { listName } from '../../../domain/soldiers/format-person.ts'
import type { Draft } from './draft.ts'

/** What a sheet of practice begins with: led and graded by who is signed in. Who only coaches enters nothing else. */
export const usePractice = (
  session: Session | null,
  asked: boolean,
  candidateId: string,
): { pending: boolean; begin: Partial<Draft> | null } => {
  const onlyCoaches =
    session?.roles.includes('sponsor') && !session.roles.some((role) => role === 'office' || role === 'grader')
  const wanted = asked || onlyCoaches
  const me = useQuery(soldierQuery(wanted ? (session?.soldierId ?? '') : ''))
  const candidate = useQuery(soldierQuery(wanted ? candidateId : ''))
  if (!wanted) return { pending: false, begin: null }
  const person = (one: typeof me.data) => (one ? { id: one.id, text: listName(one) } : null)
  const self = person(me.data)
  return {
    pending: me.isLoading || candidate.isLoading,
    begin: { purpose: 'practice', grader: self, sponsor: self, candidate: person(candidate.data) },
  }
}
