import { useQuery } from '@tanstack/react-query'
import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'
import { sessionQuery } from './accounts/session.ts'

/**
 * Whether whoever is signed in may enter or decide something about a soldier on a day: nothing about themselves, nor about
 * whom they coach. The server refuses that; this keeps the page from offering it.
 */
export const useIsImpartial = ({ id, sponsors }: Pick<SoldierDetail, 'id' | 'sponsors'>, day: string): boolean => {
  const ownId = useQuery(sessionQuery).data?.soldierId ?? null
  if (ownId === null) return true
  const coaches = sponsors.some(({ sponsorId, to }) => sponsorId === ownId && (to === null || to >= day))
  return ownId !== id && !coaches
}
