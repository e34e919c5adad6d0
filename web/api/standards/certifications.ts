import { queryOptions } from '@tanstack/react-query'
import * as endpoints from '#contract/standards/endpoints.ts'
import { everyPage } from '../every-page.ts'

/** Every certification with its terms; a code comes once for each of its terms. */
export const certificationsQuery = queryOptions({
  queryKey: ['certifications'],
  staleTime: 5 * 60_000,
  queryFn: () => everyPage(endpoints.listCertifications),
})
