import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import { MeasureFindings, SponsorFindings } from '#contract/findings.ts'
import { get } from './client.ts'

/** Filters of the findings; an empty one is left out. */
export type FindingsFilters = Partial<Record<'standard' | 'from' | 'to' | 'unitId' | 'attempts' | 'arm', string>>

export const measureFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'measures', filters],
    queryFn: () => get(MeasureFindings, '/findings/measures', filters),
    placeholderData: keepPreviousData,
  })

export const sponsorFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'sponsors', filters],
    queryFn: () => get(SponsorFindings, '/findings/sponsors', filters),
    placeholderData: keepPreviousData,
  })
