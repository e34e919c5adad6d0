import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { Effect, TermsEffectBody } from '../../contract/standards/effects.ts'
import type { Transaction } from '../../db/client.ts'
import { inTransaction } from '../../db/transaction.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { compareStandings } from '../../domain/certification/compare-standings.ts'
import { conflict } from '../../errors.ts'
import { noteFor } from '../../record/services/recorded.ts'
import { countStrength, readStandingsOn } from '../db/standings-compared.db.ts'
import { enterPublication, requireVersion } from './enter-publication.ts'
import { enterTerms } from './enter-terms.ts'
import { type EffectPage, toEffect } from './to-effect.ts'

/** Up to so many people an effect is worked out while one waits; nothing else is judged meanwhile. */
const MOST_PEOPLE = 5_000

/** Whose standing would change if this draft were published now; stores nothing. */
export async function effectOfPublishing(
  context: Context,
  actor: Actor,
  id: string,
  { asOf, ...page }: { asOf?: string | undefined } & EffectPage,
): Promise<Effect> {
  requireAction(actor, 'manage-standards')
  const { effectiveFrom } = requireVersion((await context.catalogue.current(context.db)).standards, id).own
  const day = asOf ?? later(effectiveFrom, await today(context))
  return tryOut(context, actor, day, page, (tx) =>
    enterPublication(
      tx,
      context,
      id,
      noteFor(actor, () => {}),
      requireFew,
    ),
  )
}

/** Whose standing would change if these terms were entered now; stores nothing. */
export async function effectOfTerms(
  context: Context,
  actor: Actor,
  { asOf, terms }: TermsEffectBody,
  page: EffectPage,
): Promise<Effect> {
  requireAction(actor, 'manage-standards')
  const day = asOf ?? later(terms.effectiveFrom, await today(context))
  return tryOut(context, actor, day, page, (tx) =>
    enterTerms(
      tx,
      context,
      terms,
      noteFor(actor, () => {}),
      requireFew,
    ),
  )
}

const later = (one: string, other: string): string => (one > other ? one : other)

function requireFew(people: number): void {
  if (people <= MOST_PEOPLE) return
  throw conflict(
    'effect-too-large',
    `This would judge ${people} people anew; up to ${MOST_PEOPLE} that is tried out beforehand. It can be made without.`,
  )
}

/** Carries an answer out of a transaction that leaves nothing behind. */
class TakenBack extends Error {
  readonly effect: Effect
  constructor(effect: Effect) {
    super('The change is taken back.')
    this.effect = effect
  }
}

/**
 * Makes a change by the very code that makes it for good, compares how everybody stands before and after, and takes it
 * back: so what it says is what happens. In: the work, which answers how many sheets it let stand otherwise.
 */
async function tryOut(
  context: Context,
  actor: Actor,
  day: string,
  page: EffectPage,
  make: (tx: Transaction) => Promise<{ sheets: number }>,
): Promise<Effect> {
  const scope = await scopeFor(context, actor)
  try {
    return await inTransaction(context.db, async (tx): Promise<Effect> => {
      const people = await countStrength(tx, day)
      requireFew(people)
      const before = await readStandingsOn(tx, scope, day)
      const { sheets } = await make(tx)
      const changes = compareStandings(before, await readStandingsOn(tx, scope, day))
      throw new TakenBack(toEffect(changes, { asOf: day, people, sheets }, page))
    })
  } catch (error) {
    if (error instanceof TakenBack) return error.effect
    throw error
  }
}
