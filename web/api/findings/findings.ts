import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { MeasureFindings, SponsorFindings } from '#contract/findings/findings.ts'
import { allPages } from '../all-pages.ts'
import { get } from '../client.ts'

/** Filters of the findings; an empty one is left out. */
export type FindingsFilters = Partial<Record<'standard' | 'from' | 'to' | 'unitId' | 'attempts' | 'arm', string>>

/** No unit tests more measures than one page of this size holds. */
const LARGEST_PAGE = 500

/** Failing measures, minor (`items`) and major. */
export const measureFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'measures', filters],
    queryFn: () => get<typeof MeasureFindings>('/findings/measures', { ...filters, limit: LARGEST_PAGE }),
    placeholderData: keepPreviousData,
  })

/** Every sponsor with the attempts credited to them. */
export const sponsorFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'sponsors', filters],
    queryFn: () => allPages<typeof SponsorFindings>('/findings/sponsors', filters),
    placeholderData: keepPreviousData,
  })
