import type { Created, IdParams, PageQuery } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { CertificationBody, CertificationPage } from './certifications.ts'
import type { Effect, EffectBody, TermsEffectBody } from './effects.ts'
import type { Beginnings, Comparison, ComparisonQuery, Standard, StandardBody, StandardPage } from './standards.ts'

export const listCertifications = 'GET /api/certifications' as Endpoint<{
  query: typeof PageQuery
  answer: typeof CertificationPage
}>

export const createCertification = 'POST /api/certifications' as Endpoint<{
  body: typeof CertificationBody
  answer: typeof Created
}>

export const listTerms = 'GET /api/certifications/:id/terms' as Endpoint<{
  params: typeof IdParams
  query: typeof PageQuery
  answer: typeof CertificationPage
}>

export const effectOfTerms = 'POST /api/certifications/effect' as Endpoint<{
  query: typeof PageQuery
  body: typeof TermsEffectBody
  answer: typeof Effect
}>

export const listStandards = 'GET /api/standards' as Endpoint<{ query: typeof PageQuery; answer: typeof StandardPage }>

export const createStandard = 'POST /api/standards' as Endpoint<{ body: typeof StandardBody; answer: typeof Created }>

export const listBeginnings = 'GET /api/standards/beginnings' as Endpoint<{ answer: typeof Beginnings }>

export const getStandard = 'GET /api/standards/:id' as Endpoint<{ params: typeof IdParams; answer: typeof Standard }>

export const publishStandard = 'POST /api/standards/:id/publish' as Endpoint<{
  params: typeof IdParams
  answer: typeof Standard
}>

export const changeDraft = 'PUT /api/standards/:id' as Endpoint<{
  params: typeof IdParams
  body: typeof StandardBody
  answer: typeof Standard
}>

export const deleteDraft = 'DELETE /api/standards/:id' as Endpoint<{ params: typeof IdParams }>

export const compareVersions = 'GET /api/standards/:id/comparison' as Endpoint<{
  params: typeof IdParams
  query: typeof ComparisonQuery
  answer: typeof Comparison
}>

export const effectOfPublishing = 'POST /api/standards/:id/effect' as Endpoint<{
  params: typeof IdParams
  query: typeof PageQuery
  body: typeof EffectBody
  answer: typeof Effect
}>
