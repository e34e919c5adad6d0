import type { z } from 'zod'
import type { Answer, Endpoint, Input, Optional } from '#contract/endpoint.ts'
import type { Parts } from './address-of.ts'
import { type Asked, call } from './client.ts'

/** A list that is answered page by page. */
interface Paged {
  readonly params?: z.ZodType
  readonly query: z.ZodType<unknown, { limit?: number | undefined; after?: string | undefined }>
  readonly answer: z.ZodType<{ items: unknown[]; next: string | null }>
}

const LARGEST_PAGE = 500

/** All items of a short list, page after page: units, standards, certifications. Long lists are paged on the screen instead. */
export const everyPage = async <Of extends Paged>(
  endpoint: Endpoint<Of>,
  ...[input]: Optional<Input<Of>>
): Promise<Answer<Of>['items']> => {
  const items: Answer<Of>['items'] = []
  let after: string | undefined
  do {
    const { params, query }: Parts = input ?? {}
    const asked: unknown = [{ params, query: { ...query, limit: LARGEST_PAGE, after } }]
    const page = await call(endpoint, ...(asked as Asked<Of>))
    items.push(...page.items)
    after = page.next ?? undefined
  } while (after)
  return items
}
