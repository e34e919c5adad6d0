import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { AgreementFindings } from '#contract/findings/agreement.ts'
import type { ForecastFindings } from '#contract/findings/forecast.ts'
import type { GraderFindings } from '#contract/findings/graders.ts'
import type { PairFindings } from '#contract/findings/pairs.ts'
import type { QualityFindings } from '#contract/findings/quality.ts'
import type { ReadingFindings } from '#contract/findings/readings.ts'
import type { SponsorFunnelFindings } from '#contract/findings/sponsor-funnel.ts'
import type { SponsorMeasures } from '#contract/findings/sponsor-measures.ts'
import type { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import type { TrendFindings } from '#contract/findings/trend.ts'
import type { VoidFindings, VoidQuery } from '#contract/findings/voids.ts'
import { get } from '../client.ts'
import type { FindingsFilters } from './findings.ts'

const LARGEST_PAGE = 500

/** NO-GO by month, of every test and measure. */
export const trendQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'trend', filters],
    queryFn: () => get<typeof TrendFindings>('/findings/trend', filters),
    placeholderData: keepPreviousData,
  })

/** Readings of every gauge against its band. */
export const readingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'readings', filters],
    queryFn: () => get<typeof ReadingFindings>('/findings/readings', filters),
    placeholderData: keepPreviousData,
  })

/** Pairs of measures that are NO-GO together. */
export const pairsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'pairs', filters],
    queryFn: () => get<typeof PairFindings>('/findings/pairs', filters),
    placeholderData: keepPreviousData,
  })

/** How well each standard works as a test. */
export const qualityQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'quality', filters],
    queryFn: () => get<typeof QualityFindings>('/findings/quality', filters),
    placeholderData: keepPreviousData,
  })

/** What sponsors are held against, with the limits by attempts. */
export const funnelQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'sponsor-funnel', filters],
    queryFn: () => get<typeof SponsorFunnelFindings>('/findings/sponsor-funnel', filters),
    placeholderData: keepPreviousData,
  })

/** Every grader with how strict they are, page after page; what is about all is that of the first page. */
export const gradersQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'graders', filters],
    queryFn: async (): Promise<Omit<GraderFindings, 'next'>> => {
      const ask = (after?: string) =>
        get<typeof GraderFindings>('/findings/graders', { ...filters, limit: LARGEST_PAGE, after })
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
    queryFn: () => get<typeof SponsorMeasures>('/findings/sponsor-measures', { ...filters, sponsorId }),
    placeholderData: keepPreviousData,
    enabled: sponsorId !== '',
  })

/** How far graders agree on attempts graded twice. */
export const agreementQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'agreement', filters],
    queryFn: () => get<typeof AgreementFindings>('/findings/agreement', filters),
    placeholderData: keepPreviousData,
  })

/** Void tests of each grader. */
export const voidsQuery = (filters: VoidQuery) =>
  queryOptions({
    queryKey: ['findings', 'voids', filters],
    queryFn: async () => (await get<typeof VoidFindings>('/findings/voids', { ...filters })).items,
    placeholderData: keepPreviousData,
  })

/** Days to the first certification; first attempts and retests are not told apart here. */
export const timeToCertifyQuery = (
  filters: Omit<FindingsFilters, 'attempts'> & Partial<Record<'certification' | 'start', string>>,
) =>
  queryOptions({
    queryKey: ['findings', 'time-to-certify', filters],
    queryFn: () => get<typeof TimeToCertify>('/findings/time-to-certify', filters),
    placeholderData: keepPreviousData,
  })

/** Forecasts made the day before past tests, and how they came out. */
export const forecastFindingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'forecast', filters],
    queryFn: () => get<typeof ForecastFindings>('/findings/forecast', filters),
    placeholderData: keepPreviousData,
  })
