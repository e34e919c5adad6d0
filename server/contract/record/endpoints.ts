import type { Endpoint } from '../endpoint.ts'
import type { RecordPage, RecordQuery, RecordVerification } from './record.ts'

export const listRecord = 'GET /api/record' as Endpoint<{ query: typeof RecordQuery; answer: typeof RecordPage }>

export const verifyRecord = 'GET /api/record/verification' as Endpoint<{ answer: typeof RecordVerification }>
