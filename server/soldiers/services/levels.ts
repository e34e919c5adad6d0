import { createHash } from 'node:crypto'
import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { UnitLevels, UnitLevelsBody } from '../../contract/soldiers/levels.ts'
import { bumpRevision } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { levelsInUse, lockLevels, readLevels, replaceLevels, shareLevels } from '../../db/levels.db.ts'
import { lockCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { FIRST_LEVELS } from '../../domain/people/levels.ts'
import { AppError, conflict, type ErrorItem, invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'

/** What the levels of the tree are called. Every page says it, so everybody who is signed in may read it. */
export const getLevels = (context: Context, _actor: Actor): Promise<UnitLevels> => readWords(context.db)

async function readWords(tx: Transaction): Promise<UnitLevels> {
  const levels = await readLevels(tx)
  const version = createHash('sha256').update(JSON.stringify(levels)).digest('hex').slice(0, 16)
  return { levels: levels.map((level) => ({ ...level })), version, isOwn: levels !== FIRST_LEVELS }
}

/** Says anew what the levels are called. They must be as they were read; one that a unit is of stays. */
export async function saveLevels(context: Context, actor: Actor, body: UnitLevelsBody): Promise<UnitLevels> {
  requireAction(actor, 'manage-people')
  requireSense(body)
  return recorded(context, actor, async (tx, note) => {
    await lockCatalogue(tx)
    await lockLevels(tx)
    const before = await readWords(tx)
    if (before.version !== body.version) {
      throw conflict('stale-levels', 'Somebody else changed the levels since they were read. Read them again.')
    }
    const gone = before.levels.filter(({ code }) => !body.levels.some((level) => level.code === code))
    const codes = gone.map(({ code }) => code)
    const [stays] = await levelsInUse(tx, codes)
    if (stays !== undefined) {
      const { one } = gone.find(({ code }) => code === stays)!
      throw conflict(
        'in-use',
        `There are units of the level “${one}”. Give them another level first, or keep it; its word can change.`,
      )
    }
    await replaceLevels(tx, body.levels)
    await bumpRevision(tx)
    const after = await readWords(tx)
    note({ action: 'unit.levels-changed', subject: { kind: 'levels', id: null }, before, after })
    return after
  })
}

/** Each level once, each word once, and one level that findings compare. */
function requireSense({ levels }: UnitLevelsBody): void {
  const same = (a: string, b: string) => a.toLowerCase() === b.toLowerCase()
  const items: ErrorItem[] = levels.flatMap((level, at) => {
    const before = levels.slice(0, at)
    if (before.some(({ code }) => code === level.code))
      return [{ pointer: `/levels/${at}/code`, rule: 'repeated', detail: `The level ${level.code} is there twice.` }]
    if (before.some(({ one }) => same(one, level.one)))
      return [{ pointer: `/levels/${at}/one`, rule: 'repeated', detail: `Two levels are called “${level.one}”.` }]
    return []
  })
  if (levels.filter(({ compared }) => compared).length !== 1) {
    const detail = 'Findings compare the units of one level: say which.'
    items.push({ pointer: '/levels', rule: 'one-compared', detail })
  }
  if (items[0]) throw new AppError('invalid', items[0].rule, items[0].detail, items)
}

/** Refuses a level that is not among the unit's; they stay as they are until the transaction ends. */
export async function requireLevel(tx: Transaction, code: string): Promise<void> {
  await shareLevels(tx)
  const levels = await readLevels(tx)
  if (levels.some((level) => level.code === code)) return
  const codes = levels.map((level) => level.code).join(', ')
  throw invalid('unknown-level', '/kind', `There is no level "${code}"; there are: ${codes}.`)
}
