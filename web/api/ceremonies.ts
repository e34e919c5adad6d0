import { keepPreviousData, queryOptions } from '@tanstack/react-query'
import type { CeremonyDetail, CeremonyPage } from '#contract/ceremonies.ts'
import { allPages } from './all-pages.ts'
import { get } from './client.ts'

/** Every ceremony, with how many of its posts are filled. */
export const ceremoniesQuery = queryOptions({
  queryKey: ['ceremonies'],
  queryFn: () => allPages<typeof CeremonyPage>('/ceremonies'),
})

/** A ceremony as it forms up, post by post. */
export const ceremonyQuery = (id: string) =>
  queryOptions({
    queryKey: ['ceremonies', id],
    queryFn: () => get<typeof CeremonyDetail>(`/ceremonies/${id}`),
    enabled: id !== '',
    placeholderData: keepPreviousData,
  })
