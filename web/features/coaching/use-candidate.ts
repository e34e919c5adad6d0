import { useInfiniteQuery, usePrefetchInfiniteQuery, usePrefetchQuery, useQuery } from '@tanstack/react-query'
import { forecastsQuery } from '../../api/ability/forecasts.ts'
import { sessionQuery } from '../../api/accounts/session.ts'
import { candidateCoachingQuery, coachingNotesQuery } from '../../api/coaching/coaching.ts'
import { practicesQuery } from '../../api/coaching/practices.ts'
import { commandersWordsQuery } from '../../api/readiness/commanders-words.ts'
import { retestsQuery } from '../../api/readiness/retests.ts'
import { sheetsQuery } from '../../api/sheets/sheets.ts'
import { soldierQuery, soldierStatusQuery } from '../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { fullUnitName, timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { certificationsOn, certificationTitle, standardTitle } from '../../domain/standards/titles.ts'
import { formatDay } from '../../words/format-day.ts'
import { today as todayIn } from '../../words/today.ts'
import { standardsTaken } from './standards-taken.ts'
import { viewStandard } from './view-standard.ts'

/**
 * All that the page of a candidate shows, for one standard: the chosen one, or else what they are drilled for, or took last.
 * Null in `candidate` until it is there, with the error where it does not come.
 */
export function useCandidate(id: string, chosenStandard: string) {
  const soldier = useQuery(soldierQuery(id))
  const status = useQuery(soldierStatusQuery(id))
  const sheetPages = useInfiniteQuery(sheetsQuery({ soldierId: id, purpose: 'test' }))
  // Asked for at once, though shown once the rest is there.
  usePrefetchInfiniteQuery(sheetsQuery({ soldierId: id, purpose: 'practice' }))
  usePrefetchInfiniteQuery(practicesQuery(id))
  usePrefetchInfiniteQuery(coachingNotesQuery(id))
  usePrefetchQuery(commandersWordsQuery(id))
  const units = useQuery(unitsQuery).data ?? []
  const standardList = useQuery(standardsQuery)
  const terms = useQuery(certificationsQuery)
  const retests = useQuery(retestsQuery({ soldierId: id })).data ?? []
  const coaching = useQuery(candidateCoachingQuery(id, chosenStandard)).data
  const forecasts = useQuery(forecastsQuery(id)).data?.items
  const readerId = useQuery(sessionQuery).data?.soldierId ?? null

  const error = soldier.error ?? status.error ?? sheetPages.error ?? standardList.error ?? terms.error
  const standards = standardList.data
  const sheets = sheetPages.data?.pages.flatMap(({ items }) => items)
  if (!soldier.data || !status.data || !sheets || !standards || !terms.data) return { error, candidate: null }

  const unitId = soldier.data.unitId ?? undefined
  const timeZone = timeZoneOf(units, unitId)
  const today = todayIn(timeZone)
  const certifications = certificationsOn(terms.data, today)
  const ahead = coaching?.ahead ?? []
  const taken = [...new Set([...ahead.map(({ standard }) => standard), ...standardsTaken(sheets, retests)])]
  const code = chosenStandard || coaching?.drill?.standard || taken[0] || ''
  const candidate = {
    soldier: soldier.data,
    statuses: status.data,
    sheets,
    sheetPages,
    standards,
    certifications,
    retests,
    coaching,
    ahead,
    forecast: forecasts?.find(({ standard }) => standard === code),
    /** Codes of the standards that there is something to see of. */
    taken,
    /** Of the standard that is shown; empty where there is none. */
    code,
    view: viewStandard(code, sheets, retests, standards, today),
    readerId,
    isOwn: readerId === id,
    isSponsor: soldier.data.sponsors.some(
      ({ sponsorId, from, to }) => sponsorId === readerId && from <= today && (to === null || today <= to),
    ),
    today,
    timeZone,
    titles: {
      certification: (certification: string) => certificationTitle(certifications, certification),
      standard: (standard: string) => standardTitle(standards, standard),
      unit: (unit: string) => fullUnitName(units, unit),
      day: (day: string) => formatDay(day, today),
    },
  }
  return { error, candidate }
}

export type Candidate = NonNullable<ReturnType<typeof useCandidate>['candidate']>
