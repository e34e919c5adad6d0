import { type QueryClient, queryOptions } from '@tanstack/react-query'
import type { CertificationBody } from '#contract/standards/certifications.ts'
import * as endpoints from '#contract/standards/endpoints.ts'
import type { Standard, StandardBody } from '#contract/standards/standards.ts'
import { call } from '../client.ts'
import { everyPage } from '../every-page.ts'

/** Every version of every standard, whole. */
export const standardsQuery = queryOptions({
  queryKey: ['standards'],
  staleTime: 5 * 60_000,
  queryFn: () => everyPage(endpoints.listStandards),
})

/** Standards of common practice to begin from. */
export const beginningsQuery = queryOptions({
  queryKey: ['standards', 'beginnings'],
  staleTime: Number.POSITIVE_INFINITY,
  queryFn: () => call(endpoints.listBeginnings),
})

/** What is otherwise in a version than in the one before it. */
export const comparisonQuery = (id: string) =>
  queryOptions({
    queryKey: ['standards', id, 'comparison'],
    queryFn: () => call(endpoints.compareVersions, { params: { id } }),
  })

/** All terms of a certification, the latest first. */
export const termsQuery = (id: string) =>
  queryOptions({
    queryKey: ['certifications', id, 'terms'],
    queryFn: () => everyPage(endpoints.listTerms, { params: { id } }),
    enabled: id !== '',
  })

export const createDraft = (body: StandardBody) => call(endpoints.createStandard, { body })

/** One version as it stands now. */
export const readStandard = (id: string) => call(endpoints.getStandard, { params: { id } })

/** Changes a draft; refused (409) where it says something else than when it was read, by its stamp. */
export const changeDraft = (id: string, body: StandardBody, seen: string) =>
  call(endpoints.changeDraft, { params: { id }, body, headers: { 'if-match': `"${seen}"` } })

/** The catalogue with a draft as it was just saved: nothing else depends on a draft. */
export const noteSaved = (client: QueryClient, saved: Standard) => {
  client.setQueryData(standardsQuery.queryKey, (all) => all?.map((one) => (one.id === saved.id ? saved : one)))
  return client.invalidateQueries({ queryKey: comparisonQuery(saved.id).queryKey })
}

export const deleteDraft = (id: string) => call(endpoints.deleteDraft, { params: { id } })

export const publishDraft = (id: string) => call(endpoints.publishStandard, { params: { id } })

/** Whose standing would change if the draft were published now. */
export const effectOfPublishing = (id: string, after?: string) =>
  call(endpoints.effectOfPublishing, { params: { id }, query: { after }, body: {} })

export const enterTerms = (body: CertificationBody) => call(endpoints.createCertification, { body })

/** Whose standing would change if the terms were entered now. */
export const effectOfTerms = (terms: CertificationBody, after?: string) =>
  call(endpoints.effectOfTerms, { query: { after }, body: { terms } })

/** Standards, terms and how people stand by them may be otherwise. */
export const invalidateStandards = (client: QueryClient) => client.invalidateQueries()
