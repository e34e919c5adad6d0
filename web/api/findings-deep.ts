import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import { AgreementFindings } from '#contract/findings/agreement.ts'
import { GraderFindings } from '#contract/findings/graders.ts'
import { PairFindings } from '#contract/findings/pairs.ts'
import { QualityFindings } from '#contract/findings/quality.ts'
import { ReadingFindings } from '#contract/findings/readings.ts'
import { SponsorFunnelFindings } from '#contract/findings/sponsor-funnel.ts'
import { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import { TrendFindings } from '#contract/findings/trend.ts'
import { VoidFindings, type VoidQuery } from '#contract/findings/voids.ts'
import { get } from './client.ts'
import type { FindingsFilters } from './findings.ts'

const LARGEST_PAGE = 500

/** NO-GO by month, of every test and measure. */
export const trendQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'trend', filters],
    queryFn: () => get(TrendFindings, '/findings/trend', filters),
    placeholderData: keepPreviousData,
  })

/** Readings of every gauge against its band. */
export const readingsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'readings', filters],
    queryFn: () => get(ReadingFindings, '/findings/readings', filters),
    placeholderData: keepPreviousData,
  })

/** Pairs of measures that are NO-GO together. */
export const pairsQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'pairs', filters],
    queryFn: () => get(PairFindings, '/findings/pairs', filters),
    placeholderData: keepPreviousData,
  })

/** How well each standard works as a test. */
export const qualityQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'quality', filters],
    queryFn: () => get(QualityFindings, '/findings/quality', filters),
    placeholderData: keepPreviousData,
  })

/** What sponsors are held against, with the limits by attempts. */
export const funnelQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'sponsor-funnel', filters],
    queryFn: () => get(SponsorFunnelFindings, '/findings/sponsor-funnel', filters),
    placeholderData: keepPreviousData,
  })

/** Every grader with GO against what would be expected, page after page; unit and basis are those of the first page. */
export const gradersQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'graders', filters],
    queryFn: async (): Promise<Omit<GraderFindings, 'next'>> => {
      const ask = (after?: string) =>
        get(GraderFindings, '/findings/graders', { ...filters, limit: LARGEST_PAGE, after })
      const first = await ask()
      const items = [...first.items]
      for (let { next } = first; next !== null; ) {
        const page = await ask(next)
        items.push(...page.items)
        next = page.next
      }
      return { items, unit: first.unit, basis: first.basis }
    },
    placeholderData: keepPreviousData,
  })

/** How far graders agree on attempts graded twice. */
export const agreementQuery = (filters: FindingsFilters) =>
  queryOptions({
    queryKey: ['findings', 'agreement', filters],
    queryFn: () => get(AgreementFindings, '/findings/agreement', filters),
    placeholderData: keepPreviousData,
  })

/** Void tests of each grader. */
export const voidsQuery = (filters: VoidQuery) =>
  queryOptions({
    queryKey: ['findings', 'voids', filters],
    queryFn: async () => (await get(VoidFindings, '/findings/voids', { ...filters })).items,
    placeholderData: keepPreviousData,
  })

/** Days to the first certification; first attempts and retests are not told apart here. */
export const timeToCertifyQuery = (
  filters: Omit<FindingsFilters, 'attempts'> & Partial<Record<'certification' | 'start', string>>,
) =>
  queryOptions({
    queryKey: ['findings', 'time-to-certify', filters],
    queryFn: () => get(TimeToCertify, '/findings/time-to-certify', filters),
    placeholderData: keepPreviousData,
  })
