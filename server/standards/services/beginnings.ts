import fs from 'node:fs'
import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { StandardBody } from '../../contract/standards/standards.ts'
import type { Actor } from '../../domain/access/actor.ts'

const FOLDER = new URL('../beginnings/', import.meta.url)
const CODES = fs
  .readdirSync(FOLDER)
  .filter((name) => name.endsWith('.json'))
  .map((name) => name.slice(0, -'.json'.length))
  .sort()

/** A standard that comes with the product, as it is written there; tests check each as the API would. */
export const readBeginning = (code: string): StandardBody =>
  JSON.parse(fs.readFileSync(new URL(`${code}.json`, FOLDER), 'utf8')) as StandardBody

const CHECK = 'Common practice, no source: check against your own manual'

/**
 * Standards to begin one's own from: common practice, and marked so among their references and at each gauge. They are of no
 * unit, hold nowhere and are stored only as a draft that somebody makes of one.
 */
export function listBeginnings(_context: Context, actor: Actor): { items: StandardBody[] } {
  requireAction(actor, 'manage-standards')
  const items = CODES.map(readBeginning).map((body) => ({
    ...body,
    references: [{ title: CHECK, edition: '' }, ...body.references],
    gauges: body.gauges.map((gauge) => ({ ...gauge, origin: CHECK })),
  }))
  return { items }
}
