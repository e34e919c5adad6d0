import { z } from 'zod'
import { Code, Day, Instant, Page, page, Uuid } from '../common.ts'
import { Graded } from './second-gradings.ts'
import { SheetState } from './sheets.ts'

const Taken = Graded.extend({ state: SheetState, startedAt: Instant, finishedAt: Instant, receivedAt: Instant })

/** Two sheets of one candidate and standard that run at the same time, neither of them a second grader's. */
export const PossibleDuplicate = z
  .object({
    candidateId: Uuid,
    candidate: z.string(),
    standard: Code,
    day: Day,
    earlier: Taken.describe('The one that came in first.'),
    later: Taken,
    isProposed: z.boolean().describe('An amendment of one of the two waits for a second person.'),
  })
  .meta({ id: 'PossibleDuplicate' })

export const PossibleDuplicatePage = page(PossibleDuplicate)

export const DuplicateQuery = z.strictObject(Page)

export type PossibleDuplicate = z.infer<typeof PossibleDuplicate>
