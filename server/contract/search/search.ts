import { z } from 'zod'
import { page, storableText } from '../common.ts'

export const SearchQuery = z.strictObject({
  q: storableText(100).describe('Words as they begin, with or without accents.'),
})

/** Something found: `id` leads to it, `title` and `note` say what it is. */
export const Found = z
  .object({
    kind: z.enum(['soldier', 'ceremony', 'test day', 'standard']),
    id: z.string(),
    title: z.string(),
    note: z.string(),
  })
  .meta({ id: 'Found' })

export const FoundPage = page(Found)

export type Found = z.infer<typeof Found>
