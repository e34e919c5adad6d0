import { z } from 'zod'
import { Code, storableText } from '../common.ts'

const Word = storableText(60)
  .trim()
  .min(1, { error: 'Give the word, as in the middle of a sentence.' })
  .describe('As in the middle of a sentence.')

/** What a unit calls a level of its tree: company, flight, squad, team. */
export const UnitLevel = z
  .strictObject({
    code: Code.describe('What units name as their kind; stays when the words change.'),
    one: Word,
    many: Word,
    compared: z.boolean().describe('Findings compare the units of this level; one is.'),
  })
  .meta({ id: 'UnitLevel' })

const LEVELS = {
  levels: z.array(UnitLevel).min(1).max(10).describe('From the top down.'),
  version: z.string().max(64).describe('Changes with the levels; goes back with a change of them.'),
}

export const UnitLevels = z
  .object({ ...LEVELS, isOwn: z.boolean().describe('False: nobody has said them yet; these are to begin with.') })
  .meta({ id: 'UnitLevels' })
export const UnitLevelsBody = z.strictObject(LEVELS).meta({ id: 'UnitLevelsBody' })

export type UnitLevel = z.infer<typeof UnitLevel>
export type UnitLevels = z.infer<typeof UnitLevels>
export type UnitLevelsBody = z.infer<typeof UnitLevelsBody>
