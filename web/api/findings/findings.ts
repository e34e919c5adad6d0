import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/findings/endpoints.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

/** Filters of the findings; an empty one is left out. */
export type FindingsFilters = Partial<Record<'standard' | 'from' | 'to' | 'unitId' | 'attempts' | 'arm', string>>

/** No unit tests more measures than one page of this size holds. */
const LARGEST_PAGE = 500

/** Failing measures, minor (`items`) and major. */
export const measureFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'measures', filters],
    queryFn: () => call(endpoints.getMeasureFindings, { query: { ...filters, limit: LARGEST_PAGE } }),
    placeholderData: keepPreviousData,
  })

/** Every sponsor with the attempts credited to them. */
export const sponsorFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'sponsors', filters],
    queryFn: () => everyPage(endpoints.getSponsorFindings, { query: filters }),
    placeholderData: keepPreviousData,
  })
