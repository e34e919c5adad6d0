import type { Endpoint } from '../endpoint.ts'
import type { AgreementFindings } from './agreement.ts'
import type { FindingsQuery, MeasureFindings, SponsorFindings } from './findings.ts'
import type { ForecastFindings } from './forecast.ts'
import type { GraderFindings } from './graders.ts'
import type { PairFindings } from './pairs.ts'
import type { QualityFindings, QualityQuery } from './quality.ts'
import type { UnpagedFindingsQuery } from './query.ts'
import type { ReadingFindings } from './readings.ts'
import type { SponsorFunnelFindings } from './sponsor-funnel.ts'
import type { SponsorMeasures, SponsorMeasuresQuery } from './sponsor-measures.ts'
import type { TimeToCertify, TimeToCertifyQuery } from './time-to-certify.ts'
import type { TrendFindings, TrendQuery } from './trend.ts'
import type { VoidFindings, VoidQuery } from './voids.ts'

export const getMeasureFindings = 'GET /api/findings/measures' as Endpoint<{
  query: typeof FindingsQuery
  answer: typeof MeasureFindings
}>

export const getTrendFindings = 'GET /api/findings/trend' as Endpoint<{
  query: typeof TrendQuery
  answer: typeof TrendFindings
}>

export const getReadingFindings = 'GET /api/findings/readings' as Endpoint<{
  query: typeof UnpagedFindingsQuery
  answer: typeof ReadingFindings
}>

export const getPairFindings = 'GET /api/findings/pairs' as Endpoint<{
  query: typeof UnpagedFindingsQuery
  answer: typeof PairFindings
}>

export const getQualityFindings = 'GET /api/findings/quality' as Endpoint<{
  query: typeof QualityQuery
  answer: typeof QualityFindings
}>

export const getSponsorFindings = 'GET /api/findings/sponsors' as Endpoint<{
  query: typeof FindingsQuery
  answer: typeof SponsorFindings
}>

export const getSponsorFunnel = 'GET /api/findings/sponsor-funnel' as Endpoint<{
  query: typeof UnpagedFindingsQuery
  answer: typeof SponsorFunnelFindings
}>

export const getSponsorMeasures = 'GET /api/findings/sponsor-measures' as Endpoint<{
  query: typeof SponsorMeasuresQuery
  answer: typeof SponsorMeasures
}>

export const getGraderFindings = 'GET /api/findings/graders' as Endpoint<{
  query: typeof FindingsQuery
  answer: typeof GraderFindings
}>

export const getAgreementFindings = 'GET /api/findings/agreement' as Endpoint<{
  query: typeof UnpagedFindingsQuery
  answer: typeof AgreementFindings
}>

export const getForecastFindings = 'GET /api/findings/forecast' as Endpoint<{
  query: typeof UnpagedFindingsQuery
  answer: typeof ForecastFindings
}>

export const getTimeToCertify = 'GET /api/findings/time-to-certify' as Endpoint<{
  query: typeof TimeToCertifyQuery
  answer: typeof TimeToCertify
}>

export const getVoidFindings = 'GET /api/findings/voids' as Endpoint<{
  query: typeof VoidQuery
  answer: typeof VoidFindings
}>
