import { z } from 'zod'
import { Code, Instant, Uuid } from './common.ts'
import { SheetState } from './sheets.ts'

const Counts = {
  calls: z.int().min(0).max(10_000).describe('Calls of the standard.'),
  callsDone: z.int().min(0).max(10_000),
  go: z.int().min(0).max(1000),
  noGo: z.int().min(0).max(1000),
}

/** How a test stands that a device is running; the address has the id its sheet will have. */
export const RunningTestBody = z
  .strictObject({
    testDayId: Uuid,
    candidateId: Uuid,
    standard: Code,
    graderId: Uuid,
    secondOf: Uuid.nullable().default(null),
    startedAt: Instant,
    state: z.enum(['running', 'ceased']),
    ...Counts,
  })
  .refine(({ calls, callsDone }) => callsDone <= calls, {
    error: 'More calls are done than the standard has.',
    path: ['callsDone'],
  })
  .meta({ id: 'RunningTestBody' })

const People = {
  candidateId: Uuid,
  candidate: z.string(),
  standard: Code,
  graderId: Uuid,
  grader: z.string(),
  secondOf: Uuid.nullable(),
}

/** A test that runs now. `go` and `noGo` are null for graders, who grade by what they see. */
const RunningTest = z
  .object({
    sheetId: Uuid,
    ...People,
    startedAt: Instant,
    state: z.enum(['running', 'ceased']),
    calls: z.int(),
    callsDone: z.int(),
    go: z.int().nullable(),
    noGo: z.int().nullable(),
    heardAt: Instant.describe('When the device last said so.'),
  })
  .meta({ id: 'RunningTest' })

/** A test that was closed on a test day. */
const ClosedTest = z
  .object({
    sheetId: Uuid,
    ...People,
    finishedAt: Instant,
    outcome: z.enum(['GO', 'NO-GO', 'VOID']),
    state: SheetState,
  })
  .meta({ id: 'ClosedTest' })

/** What happens on the line of a test day: what runs, in order of its start, and what was closed, latest first. */
export const TestDayLine = z
  .object({ running: z.array(RunningTest), closed: z.array(ClosedTest) })
  .meta({ id: 'TestDayLine' })

export type RunningTestBody = z.infer<typeof RunningTestBody>
export type RunningTest = z.infer<typeof RunningTest>
export type ClosedTest = z.infer<typeof ClosedTest>
export type TestDayLine = z.infer<typeof TestDayLine>
