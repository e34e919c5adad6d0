import { useInfiniteQuery } from '@tanstack/react-query'
import type { Readiness } from '#contract/standards/certifications.ts'
import { type ReadinessFilters, unitCountsQuery } from '../../api/readiness/readiness.ts'
import type { Pages } from '../../ui/table-files.tsx'

interface UnitCountsShown extends Pages {
  counts: Readiness['counts']
  isFetchingNextPage: boolean
}

/** The counts of the first units, which came with the page, and of further ones once they are asked for. */
export function useUnitCounts(filters: ReadinessFilters, first: Readiness | undefined): UnitCountsShown {
  const { asOf, unitId, certification } = filters
  const query = useInfiniteQuery(unitCountsQuery({ asOf, unitId, certification }, first?.nextCounts ?? undefined))
  const further = query.data?.pages.flatMap(({ items }) => items) ?? []
  return {
    counts: [
      ...(first?.counts ?? []),
      ...further.flatMap(({ unitId, counts }) => counts.map((count) => ({ unitId, ...count }))),
    ],
    hasNextPage: query.data ? query.hasNextPage : (first?.nextCounts ?? null) !== null,
    fetchNextPage: query.fetchNextPage,
    isFetchingNextPage: query.isFetchingNextPage,
  }
}
