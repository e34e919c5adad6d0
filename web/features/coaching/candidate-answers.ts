import type { QueryClient } from '@tanstack/react-query'
import { forecastsQuery } from '../../api/ability/forecasts.ts'
import { candidateCoachingQuery, coachingNotesQuery } from '../../api/coaching/coaching.ts'
import { practicesQuery } from '../../api/coaching/practices.ts'
import { retestsQuery } from '../../api/readiness/retests.ts'
import { sheetsQuery } from '../../api/sheets/sheets.ts'
import { soldierQuery, soldierStatusQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'

/** All answers that the page of a candidate, and that of the day of their test, are drawn from, each by its key. */
export async function candidateAnswers(client: QueryClient, id: string) {
  const single = [
    soldierQuery(id),
    soldierStatusQuery(id),
    unitsQuery,
    standardsQuery,
    certificationsQuery,
    retestsQuery({ soldierId: id }),
    candidateCoachingQuery(id, ''),
    forecastsQuery(id),
  ] as const
  const paged = [
    sheetsQuery({ soldierId: id, purpose: 'test' }),
    sheetsQuery({ soldierId: id, purpose: 'practice' }),
    practicesQuery(id),
    coachingNotesQuery(id),
  ] as const
  await Promise.all([
    ...single.map((query) => client.fetchQuery(query as typeof unitsQuery)),
    ...paged.map((query) => client.fetchInfiniteQuery(query as ReturnType<typeof practicesQuery>)),
  ])
  return [...single, ...paged].map(({ queryKey }) => ({ key: queryKey, data: client.getQueryData(queryKey) }))
}
