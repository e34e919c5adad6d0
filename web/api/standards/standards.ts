import { type QueryClient, queryOptions } from '@tanstack/react-query'
import type { Created } from '#contract/common.ts'
import type { CertificationBody, CertificationPage } from '#contract/standards/certifications.ts'
import type { Effect } from '#contract/standards/effects.ts'
import type { Beginnings, Comparison, Standard, StandardBody, StandardPage } from '#contract/standards/standards.ts'
import { allPages } from '../all-pages.ts'
import { get, remove, send } from '../client.ts'

/** Every version of every standard, whole. */
export const standardsQuery = queryOptions({
  queryKey: ['standards'],
  staleTime: 5 * 60_000,
  queryFn: () => allPages<typeof StandardPage>('/standards'),
})

/** Standards of common practice to begin from. */
export const beginningsQuery = queryOptions({
  queryKey: ['standards', 'beginnings'],
  staleTime: Number.POSITIVE_INFINITY,
  queryFn: () => get<typeof Beginnings>('/standards/beginnings'),
})

/** What is otherwise in a version than in the one before it. */
export const comparisonQuery = (id: string) =>
  queryOptions({
    queryKey: ['standards', id, 'comparison'],
    queryFn: () => get<typeof Comparison>(`/standards/${id}/comparison`),
  })

/** All terms of a certification, the latest first. */
export const termsQuery = (id: string) =>
  queryOptions({
    queryKey: ['certifications', id, 'terms'],
    queryFn: () => allPages<typeof CertificationPage>(`/certifications/${id}/terms`),
    enabled: id !== '',
  })

export const createDraft = (body: StandardBody) => send<typeof Created>('POST', '/standards', body)

/** One version as it stands now. */
export const readStandard = (id: string) => get<typeof Standard>(`/standards/${id}`)

/** Changes a draft; refused (409) where it says something else than when it was read, by its stamp. */
export const changeDraft = (id: string, body: StandardBody, seen: string) =>
  send<typeof Standard>('PUT', `/standards/${id}`, body, { 'if-match': `"${seen}"` })

/** The catalogue with a draft as it was just saved: nothing else depends on a draft. */
export const noteSaved = (client: QueryClient, saved: Standard) => {
  client.setQueryData(standardsQuery.queryKey, (all) => all?.map((one) => (one.id === saved.id ? saved : one)))
  return client.invalidateQueries({ queryKey: comparisonQuery(saved.id).queryKey })
}

export const deleteDraft = (id: string) => remove(`/standards/${id}`)

export const publishDraft = (id: string) => send<typeof Standard>('POST', `/standards/${id}/publish`, undefined)

/** Whose standing would change if the draft were published now. */
export const effectOfPublishing = (id: string, after?: string) =>
  send<typeof Effect>('POST', `/standards/${id}/effect${pageAfter(after)}`, {})

export const enterTerms = (body: CertificationBody) => send<typeof Created>('POST', '/certifications', body)

/** Whose standing would change if the terms were entered now. */
export const effectOfTerms = (terms: CertificationBody, after?: string) =>
  send<typeof Effect>('POST', `/certifications/effect${pageAfter(after)}`, { terms })

const pageAfter = (after?: string): string => (after ? `?${new URLSearchParams({ after })}` : '')

/** Standards, terms and how people stand by them may be otherwise. */
export const forgetStandards = (client: QueryClient) => client.invalidateQueries()
