import { z } from 'zod'
import { Code, PlainDate, Uuid } from '../common.ts'
import { Standard } from '../standards/standards.ts'

const FaultNoted = z
  .object({
    fault: Code,
    unit: z.int().describe('Trials of the whole unit that it was noted on.'),
    own: z.int().describe('Of the candidate; 0 without one.'),
  })
  .meta({ id: 'StudyFault' })

const StudyMeasure = z
  .object({
    measure: Code,
    major: z.boolean(),
    trials: z.int().describe('Trials of the whole unit, as this version defines the measure.'),
    own: z.object({ tested: z.int(), noGo: z.int() }).describe('Tests of the candidate that decided it.'),
    faults: z.array(FaultNoted).describe('All of the measure’s, those the unit is marked for most first.'),
  })
  .meta({ id: 'StudyMeasure' })

/** What to learn of a standard, with the unit’s faults and, for a candidate, their own. */
export const StudySheet = z
  .object({
    asOf: PlainDate,
    standard: Standard.describe('The version in force that day, else the newest published.'),
    candidate: z.object({ id: Uuid, name: z.string(), tests: z.int() }).nullable(),
    measures: z.array(StudyMeasure).describe('Majors, then minors, in the order of the standard.'),
  })
  .meta({ id: 'StudySheet' })

export const StudyParams = z.strictObject({ standard: Code })

export const StudyQuery = z.strictObject({ candidateId: Uuid.optional() })

export type StudySheet = z.infer<typeof StudySheet>
