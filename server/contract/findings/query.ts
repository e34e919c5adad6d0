import { z } from 'zod'
import { Code, PlainDate, Uuid } from '../common.ts'

/** What findings are about: `from` and `to` are days of tests, the unit is the candidate’s of that day and all below. */
export const FindingsFilters = {
  standard: Code.optional(),
  from: PlainDate.optional(),
  to: PlainDate.optional(),
  unitId: Uuid.optional(),
  attempts: z
    .enum(['first', 'retest', 'renewal', 'all'])
    .default('all')
    .describe('First: no test and no award before; retest: the latest of them is a NO-GO; else renewal.'),
  arm: Code.optional(),
}

export const UnpagedFindingsQuery = z.strictObject(FindingsFilters)

export type UnpagedFindingsQuery = z.infer<typeof UnpagedFindingsQuery>
