import { z } from 'zod'
import { Code, storableText } from '../common.ts'

const Name = storableText(100).describe('What it is called in full; empty: only the short form is known.')
const Confirmed = z
  .boolean()
  .describe('False: it came in with something else and nobody of the training office has looked at it yet.')

export const Grade = z
  .strictObject({ code: Code, name: Name, officer: z.boolean(), confirmed: Confirmed })
  .meta({ id: 'Grade' })
export const Arm = z.strictObject({ code: Code, name: Name, confirmed: Confirmed }).meta({ id: 'Arm' })

const LISTS = {
  grades: z.array(Grade).max(200).describe('In the order of the unit, the lowest first.'),
  arms: z.array(Arm).max(100).describe('In the order of the unit.'),
  version: z.string().max(64).describe('Changes with the lists; goes back with a change of them.'),
}

/** The grades and arms of the unit. */
export const ArmsAndGrades = z.object(LISTS).meta({ id: 'ArmsAndGrades' })
export const ArmsAndGradesBody = z.strictObject(LISTS).meta({ id: 'ArmsAndGradesBody' })

const Use = z.object({ code: Code, soldiers: z.int().describe('In the strength today.') })

/** Who carries what today, as far as the account sees people. */
export const ArmsAndGradesUse = z.object({ grades: z.array(Use), arms: z.array(Use) }).meta({ id: 'ArmsAndGradesUse' })

export type Grade = z.infer<typeof Grade>
export type Arm = z.infer<typeof Arm>
export type ArmsAndGrades = z.infer<typeof ArmsAndGrades>
export type ArmsAndGradesBody = z.infer<typeof ArmsAndGradesBody>
export type ArmsAndGradesUse = z.infer<typeof ArmsAndGradesUse>
