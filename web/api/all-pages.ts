import type { z } from 'zod'
import { get } from './client.ts'

type PageSchema = z.ZodType<{ items: unknown[]; next: string | null }>

const LARGEST_PAGE = 500

/** All items of a short list, page after page: units, standards, certifications. Long lists are paged on the screen instead. */
export const allPages = async <Schema extends PageSchema>(
  path: string,
  query: Record<string, string | undefined> = {},
): Promise<z.infer<Schema>['items']> => {
  const items: z.infer<Schema>['items'] = []
  let after: string | undefined
  do {
    const page = await get<Schema>(path, { ...query, limit: LARGEST_PAGE, after })
    items.push(...page.items)
    after = page.next ?? undefined
  } while (after)
  return items
}
