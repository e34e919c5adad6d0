import { notAllowed } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { readStatusesOfMany } from '../../assessment/db/standings.db.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { todayOfSoldier } from '../../context/today.ts'
import type { CandidateCoaching, Coaching } from '../../contract/coaching/coaching.ts'
import type { Soldier } from '../../contract/soldiers/soldiers.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { invalid, notFound } from '../../errors.ts'
import { readSoldier, readSoldiers } from '../../soldiers/db/roster.db.ts'
import { listPresentSponsors, listSponsored, sponsoringSince } from '../db/coaching.db.ts'
import { gatherCoaching } from './gather-coaching.ts'

const nobody = (today: string): Scope => ({
  everyone: false,
  unitId: null,
  selfId: null,
  sponsorId: null,
  graderId: null,
  today,
})

/** The present candidates of whoever asks, a sponsor, by roster number. */
export async function getCoaching(
  context: Context,
  actor: Actor,
  query: { limit: number; after?: string | undefined },
): Promise<Coaching> {
  if (!actor.roles.includes('sponsor')) throw notAllowed()
  const { soldierId } = actor
  const { today } = await scopeFor(context, actor)
  const { mostCandidates } = context
  const empty = { asOf: today, candidates: 0, mostCandidates, tooManySince: null, own: [], items: [], next: null }
  if (soldierId === null) return empty
  const key = fromCursor(query.after, ['text'])
  const scope = { ...nobody(today), sponsorId: soldierId }
  const [rows, since, own] = await Promise.all([
    listSponsored(context.db, soldierId, today, { limit: query.limit + 1, after: key && String(key[0]) }),
    sponsoringSince(context.db, soldierId, today),
    statusesOf(context, [soldierId], today),
  ])
  const page = toPage(
    rows,
    query.limit,
    ({ rosterNumber }) => [rosterNumber],
    (row) => row,
  )
  const ids = page.items.map(({ candidateId }) => candidateId)
  const [people, sponsors] = await Promise.all([
    readSoldiers(context.db, scope, ids, today),
    sponsorsOf(context, { ...nobody(today), selfId: soldierId }, ids, today),
  ])
  const facts = await gatherCoaching(context, scope, today, sponsors)
  const items = page.items.flatMap(({ candidateId, since: from, until }) => {
    const person = people.find(({ id }) => id === candidateId)
    return person ? [{ ...whoIs(person), since: from, until, ...facts(candidateId) }] : []
  })
  const tooManySince = since[mostCandidates] ?? null
  return {
    asOf: today,
    candidates: since.length,
    mostCandidates,
    tooManySince,
    own: own.get(soldierId) ?? [],
    items,
    next: page.next,
  }
}

/** What is ahead of one soldier and what to drill for it; not for graders, who are to judge them. */
export async function getCandidateCoaching(
  context: Context,
  actor: Actor,
  candidateId: string,
  query: { standard?: string | undefined },
): Promise<CandidateCoaching> {
  const scope = { ...(await scopeFor(context, actor)), graderId: null }
  const today = await todayOfSoldier(context, candidateId)
  const person = await readSoldier(context.db, scope, candidateId, today)
  if (!person) throw notFound('soldier')
  const { standards } = await context.catalogue.current(context.db)
  if (query.standard !== undefined && !standards.has(query.standard)) {
    throw invalid('unknown-standard', 'standard', `There is no standard "${query.standard}".`)
  }
  const sponsors = await sponsorsOf(context, scope, [candidateId], today)
  const self = { ...nobody(today), selfId: candidateId }
  const facts = await gatherCoaching(context, self, today, sponsors, query.standard)
  return { asOf: today, ...whoIs(person), ...facts(candidateId) }
}

/** The present sponsors of candidates and how they stand; only what concerns those in scope is told. */
async function sponsorsOf(context: Context, scope: Scope, candidateIds: readonly string[], today: string) {
  const present = await listPresentSponsors(context.db, scope, candidateIds, today)
  const statuses = await statusesOf(context, [...new Set(present.map(({ sponsorId }) => sponsorId))], today)
  return new Map(
    candidateIds.map((id) => [
      id,
      present
        .filter(({ candidateId }) => candidateId === id)
        .map((one) => ({ ...one, statuses: statuses.get(one.sponsorId) ?? [] })),
    ]),
  )
}

/** How soldiers stand; whom it may be told is up to the caller. */
async function statusesOf(context: Context, ids: readonly string[], today: string) {
  const rows = await readStatusesOfMany(context.db, { ...nobody(today), everyone: true }, ids, today)
  return new Map(
    ids.map((id) => [
      id,
      rows.filter(({ soldierId }) => soldierId === id).map(({ soldierId: _, ...status }) => status),
    ]),
  )
}

const whoIs = (person: Soldier) => ({
  candidateId: person.id,
  rosterNumber: person.rosterNumber,
  name: `${person.familyName}, ${person.givenName}`,
  grade: person.grade,
  unitId: person.unitId,
})
