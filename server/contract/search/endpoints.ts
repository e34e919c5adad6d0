import type { Endpoint } from '../endpoint.ts'
import type { FoundPage, SearchQuery } from './search.ts'

export const search = 'GET /api/search' as Endpoint<{ query: typeof SearchQuery; answer: typeof FoundPage }>
