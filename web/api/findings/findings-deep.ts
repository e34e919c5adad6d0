import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/findings/endpoints.ts'
import type { GraderFindings } from '#contract/findings/graders.ts'
import type { VoidQuery } from '#contract/findings/voids.ts'
import { call } from '../client.ts'
import type { FindingsFilters } from './findings.ts'

const LARGEST_PAGE = 500

/** NO-GO by month, of every test and measure. */
export const trendQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'trend', filters],
    queryFn: () => call(endpoints.getTrendFindings, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** Readings of every gauge against its band. */
export const readingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'readings', filters],
    queryFn: () => call(endpoints.getReadingFindings, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** Pairs of measures that are NO-GO together. */
export const pairsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'pairs', filters],
    queryFn: () => call(endpoints.getPairFindings, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** How well each standard works as a test. */
export const qualityQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'quality', filters],
    queryFn: () => call(endpoints.getQualityFindings, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** What sponsors are held against, with the limits by attempts. */
export const funnelQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'sponsor-funnel', filters],
    queryFn: () => call(endpoints.getSponsorFunnel, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** Every grader with how strict they are, page after page; what is about all is that of the first page. */
export const gradersQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'graders', filters],
    queryFn: async (): Promise<Omit<GraderFindings, 'next'>> => {
      const ask = (after?: string) =>
        call(endpoints.getGraderFindings, { query: { ...filters, limit: LARGEST_PAGE, after } })
      const first = await ask()
      const items = [...first.items]
      for (let { next } = first; next !== null; ) {
        const page = await ask(next)
        items.push(...page.items)
        next = page.next
      }
      return { ...first, items }
    },
    placeholderData: keepPreviousData,
  })

/** What all candidates of one sponsor fail; asked only where a sponsor is named. */
export const sponsorMeasuresQuery = (filters: FindingsFilters, sponsorId: string) =>
  queryOptions({
    queryKey: ['findings', 'sponsor-measures', filters, sponsorId],
    queryFn: () => call(endpoints.getSponsorMeasures, { query: { ...filters, sponsorId } }),
    placeholderData: keepPreviousData,
    enabled: sponsorId !== '',
  })

/** How far graders agree on attempts graded twice. */
export const agreementQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'agreement', filters],
    queryFn: () => call(endpoints.getAgreementFindings, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** Void tests of each grader. */
export const voidsQuery = (filters: VoidQuery) =>
  queryOptions({
    queryKey: ['findings', 'voids', filters],
    queryFn: async () => (await call(endpoints.getVoidFindings, { query: filters })).items,
    placeholderData: keepPreviousData,
  })

/** Days to the first certification; first attempts and retests are not told apart here. */
export const timeToCertifyQuery = (
  filters: Omit<FindingsFilters, 'attempts'> & Partial<Record<'certification' | 'start', string>>,
) =>
  queryOptions({
    queryKey: ['findings', 'time-to-certify', filters],
    queryFn: () => call(endpoints.getTimeToCertify, { query: filters }),
    placeholderData: keepPreviousData,
  })

/** Forecasts made the day before past tests, and how they came out. */
export const forecastFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'forecast', filters],
    queryFn: () => call(endpoints.getForecastFindings, { query: filters }),
    placeholderData: keepPreviousData,
  })
