import type { z } from 'zod'
import { get } from './client.ts'

type PageSchema<Item> = z.ZodType<{ items: Item[]; next: string | null }>

const LARGEST_PAGE = 500

/** All items of a short list, page after page: units, standards, certifications. Long lists are paged on the screen instead. */
export const allPages = async <Item>(
  schema: PageSchema<Item>,
  path: string,
  query: Record<string, string | undefined> = {},
): Promise<Item[]> => {
  const items: Item[] = []
  let after: string | undefined
  do {
    const page = await get(schema, path, { ...query, limit: LARGEST_PAGE, after })
    items.push(...page.items)
    after = page.next ?? undefined
  } while (after)
  return items
}
