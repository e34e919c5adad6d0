import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import type { Retest } from '#contract/standards/certifications.ts'
import { keptGosQuery } from '../../../api/readiness/retests.ts'
import { openAmendmentsQuery, openAppealsQuery } from '../../../api/sheets/appeals.ts'
import { duplicatesQuery } from '../../../api/sheets/duplicates.ts'
import { secondGradingsQuery } from '../../../api/sheets/second-gradings.ts'
import { sheetsQuery } from '../../../api/sheets/sheets.ts'
import { listsQuery } from '../../../api/soldiers/arms-and-grades.ts'
import { isDueSoon } from '../../../domain/readiness/due-soon.ts'
import type { Waiting } from './waiting-list.tsx'
import { whatWaits } from './what-waits.ts'

const HELD_AT_ONCE = 500

/** What waits for the office today. In: the open retests, as soon as they are there. */
export const useWaiting = (retests: readonly Retest[] | undefined, today: string): Waiting[] => {
  const held = useInfiniteQuery(sheetsQuery({ state: 'held' }, HELD_AT_ONCE))
  const differing = useInfiniteQuery(secondGradingsQuery(true))
  const twice = useQuery(duplicatesQuery).data
  const amendments = useQuery(openAmendmentsQuery)
  const appeals = useQuery(openAppealsQuery)
  const lists = useQuery(listsQuery).data
  const kept = useQuery(keptGosQuery())
  return whatWaits({
    held: held.data?.pages.flatMap(({ items }) => items).length,
    amendments: amendments.data?.length,
    differing: differing.data?.pages.flatMap(({ items }) => items).length,
    twice: twice?.filter(({ isProposed }) => !isProposed).length,
    appeals: appeals.data?.length,
    newWords: lists && [...lists.grades, ...lists.arms].filter(({ confirmed }) => !confirmed).length,
    reviews: retests?.filter((one) => one.needsReview).length,
    pastDue: retests?.filter((one) => one.pastDue).length,
    dueSoon: retests?.filter((one) => isDueSoon(one, today)).length,
    kept: kept.data?.length,
  })
}
