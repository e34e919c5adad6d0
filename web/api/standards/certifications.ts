import { queryOptions } from '@tanstack/react-query'
import type { CertificationPage } from '#contract/standards/certifications.ts'
import { allPages } from '../all-pages.ts'

/** Every certification with its terms; a code comes once for each of its terms. */
export const certificationsQuery = queryOptions({
  queryKey: ['certifications'],
  staleTime: 5 * 60_000,
  queryFn: () => allPages<typeof CertificationPage>('/certifications'),
})
