import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { ceremoniesQuery, ceremonyQuery } from '../../api/ceremonies/ceremonies.ts'
import { readinessQuery } from '../../api/readiness/readiness.ts'
import { levelsQuery } from '../../api/soldiers/levels.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { certificationsQuery } from '../../api/standards/certifications.ts'
import { standardsQuery } from '../../api/standards/standards.ts'
import { mostlyOf } from '../../domain/soldiers/levels.ts'
import { timeZoneOf } from '../../domain/soldiers/unit-tree.ts'
import { certificationsOn } from '../../domain/standards/titles.ts'
import type { Pages } from '../../ui/table-files.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { today as todayIn } from '../../words/today.ts'
import { linesByPlatoon } from './lines-by-platoon.ts'
import { useUnitCounts } from './use-unit-counts.ts'
import { worthARow } from './worth-a-row.ts'

const FILTERS = ['asOf', 'unitId', 'ceremony', 'certification', 'standing', 'sort'] as const

/** Whether the list is narrowed to who can stand, or who may not. */
export const isStanding = (text: string): text is 'can' | 'cannot' => text === 'can' || text === 'cannot'

/** Who stands how, as the address asks for it; `first` and the ceremony `shown` are undefined until they are there. */
export const useStand = () => {
  const [filters, setFilters] = useFilters(FILTERS)
  const units = useQuery(unitsQuery).data ?? []
  const levels = useQuery(levelsQuery).data?.levels
  const allTerms = useQuery(certificationsQuery).data ?? []
  const standards = useQuery(standardsQuery).data ?? []
  const ceremonies = useQuery(ceremoniesQuery).data ?? []
  const ceremony = useQuery(ceremonyQuery(filters.ceremony))
  const head = ceremonies.find(({ id }) => id === filters.ceremony)
  const unitId = filters.unitId || head?.unitId
  const whose = {
    asOf: filters.asOf || head?.day,
    unitId,
    certification: filters.certification || undefined,
  }
  const readiness = useInfiniteQuery(
    readinessQuery({
      ...whose,
      ...(isStanding(filters.standing) ? { standing: filters.standing } : {}),
      sort: filters.sort || 'state',
    }),
  )
  const shown = ceremony.data?.id === filters.ceremony ? ceremony.data : undefined
  const first = readiness.data?.pages[0]
  const unitCounts = useUnitCounts(whose, first)
  const items = readiness.data?.pages.flatMap((page) => page.items).filter(worthARow) ?? []
  const today = todayIn(timeZoneOf(units, unitId))
  const asOf = first?.asOf ?? filters.asOf
  const certifications = certificationsOn(allTerms, asOf || today)
  const level = mostlyOf(
    levels,
    linesByPlatoon(units, unitId, unitCounts.counts).map(({ unit }) => unit),
  )
  /** Reads the lists to their end, so that all of it is printed. */
  const printAll = async () => {
    let list = readiness
    while (list.hasNextPage) list = await list.fetchNextPage()
    let further: Pages = unitCounts
    while (further.hasNextPage) further = await further.fetchNextPage()
    // The rows just fetched are drawn first.
    setTimeout(() => window.print(), 100)
  }
  return {
    filters,
    setFilters,
    words: { units, standards, certifications },
    ceremonies,
    ceremony,
    shown,
    unitId,
    readiness,
    first,
    items,
    unitCounts,
    level,
    today,
    asOf,
    printAll,
  }
}

/** The page with all that is loaded for it. */
export type Stand = ReturnType<typeof useStand>
