import { isBlindedTo } from '../../../access/db/blinding.db.ts'
import { readSoldierTimeZone } from '../../../access/db/units.db.ts'
import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { readDossier, type StoredStanding } from '../../../assessment/db/dossiers.db.ts'
import type { Context } from '../../../context/context.ts'
import type { AsKnown, EnteredFact, KnownStanding } from '../../../contract/soldiers/as-known.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import type { Picture, StandingPicture } from '../../../domain/as-known/picture.ts'
import type { Fact } from '../../../domain/as-known/recorded-facts.ts'
import { whatDiffers } from '../../../domain/as-known/what-differs.ts'
import { dayInZone } from '../../../domain/calendar/day-in-zone.ts'
import { addDays } from '../../../domain/calendar/plain-date.ts'
import { zonedInstant } from '../../../domain/calendar/zoned-instant.ts'
import { AppError, conflict, notFound } from '../../../errors.ts'
import { readPresentIds } from '../../db/merges/merges.db.ts'
import { readRemovals } from '../../db/removals/removals.db.ts'
import { readSoldier } from '../../db/roster.db.ts'
import { gatherFacts } from './gather-facts.ts'

/**
 * How a soldier stood on a day by what the record held at the end of a day, how that day looks now, and which later
 * entries made the difference. A second grader is not told before their own sheet is stored.
 */
export async function getAsKnown(
  context: Context,
  actor: Actor,
  asked: string,
  { on, asOf = on }: { readonly on: string; readonly asOf?: string | undefined },
): Promise<AsKnown> {
  requireAction(actor, 'see-soldiers')
  const scope = await scopeFor(context, actor)
  const soldierId = (await readPresentIds(context.db, [asked])).get(asked) ?? asked
  const zone = (await readSoldierTimeZone(context.db, soldierId, on)) ?? context.timeZone
  const today = dayInZone(context.clock().getTime(), zone)
  if (!(await readSoldier(context.db, scope, soldierId, today))) throw notFound('soldier')
  if (scope.graderId !== null && (await isBlindedTo(context.db, scope.graderId, soldierId))) throw notFound('soldier')
  if (on > today) throw notKnownYet(today)
  if ((await readRemovals(context.db, [soldierId])).size > 0) throw removed()
  const catalogue = await context.catalogue.current(context.db)
  const facts = await gatherFacts(context.db, catalogue, soldierId, zone)
  const until = zonedInstant(addDays(on, 1), '00:00', zone)
  const { known, now, differences } = whatDiffers(facts, soldierId, Date.parse(until), asOf)
  const stored = await readDossier(context.db, soldierId)
  return {
    soldierId,
    ...{ knownOn: on, asOf, until },
    known: toPicture(known),
    now: toPicture(now),
    differences: differences.map(({ at, facts: entered, ...changes }) => ({
      at: new Date(at).toISOString(),
      entered: entered.map(toEntered),
      certifications: changes.certifications.map(({ certification, before, after }) => ({
        certification,
        before: before && toStanding(before),
        after: after && toStanding(after),
      })),
      sheets: [...changes.sheets],
    })),
    complete: isComplete(now, stored.standings, asOf),
  }
}

const toPicture = ({ certifications, sheets }: Picture): AsKnown['known'] => ({
  certifications: certifications.map(toStanding),
  sheets: [...sheets],
})

const toStanding = ({ toward, retestOpen, retests, ...standing }: StandingPicture): KnownStanding => ({
  ...standing,
  toward: [...toward],
  retestOpen: [...retestOpen],
  retests: [...retests],
})

function toEntered(fact: Fact): EnteredFact {
  if (fact.kind === 'sheet') {
    const { test, revision, state } = fact
    const { id: sheetId, standard, day, outcome } = test
    return { kind: 'sheet', sheetId, revision, standard, day, outcome, state }
  }
  if (fact.kind !== 'terms') return fact
  return { kind: 'terms', certification: fact.certification, effectiveFrom: fact.terms.effectiveFrom }
}

/** Whether the record tells all that the standing of the day rests on: replayed, it must give what is stored. */
function isComplete(now: Picture, stored: ReadonlyMap<string, StoredStanding>, asOf: string): boolean {
  return [...stored.values()].every(({ certification, statuses }) => {
    const held = statuses.find(({ from, through }) => from <= asOf && (through === null || asOf <= through))?.value
    const replayed = now.certifications.find((one) => one.certification === certification)
    return (['status', 'suspended', 'awardedOn', 'validThrough'] as const).every(
      (field) => (held?.[field] ?? null) === (replayed?.[field] ?? null),
    )
  })
}

const notKnownYet = (today: string): AppError => {
  const detail = `Nobody knows yet what will be known then. Give a day up to today, ${today}.`
  return new AppError('malformed-request', 'not-known-yet', detail, [{ pointer: 'on', rule: 'not-known-yet', detail }])
}

const removed = (): AppError =>
  conflict(
    'soldier-removed',
    'The personal data of this soldier was removed for good, and with it what the record said of them. How they stood as known on a day can no longer be worked out.',
  )
