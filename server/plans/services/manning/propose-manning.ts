import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { type CeremonyRow, readCeremony } from '../../../ceremonies/db/ceremonies.db.ts'
import type { FactsRow } from '../../../ceremonies/db/manning-facts.db.ts'
import { type OutlookRow, readOutlook } from '../../../ceremonies/db/outlook.db.ts'
import { countStood } from '../../../ceremonies/db/post-candidates.db.ts'
import { occasionOf } from '../../../ceremonies/services/manning/judge-ceremony.ts'
import { MOST_ROWS } from '../../../ceremonies/services/manning/outlook-of.ts'
import { type Reach, reachOf } from '../../../ceremonies/services/reach.ts'
import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import type { ManningProposal } from '../../../contract/plans/manning.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namingScope } from '../../../domain/access/scope.ts'
import { type ManningFacts, manningProblem } from '../../../domain/plans/manning/manning-problem.ts'
import { shortSets } from '../../../domain/plans/manning/short-sets.ts'
import { solveManning } from '../../../domain/plans/manning/solve-manning.ts'
import type { PlanProblem } from '../../../domain/plans/problem.ts'
import { invalid, notFound } from '../../../errors.ts'
import { alternatesWanted, LOAD_DAYS } from './alternates-wanted.ts'
import { findWouldHelp } from './find-would-help.ts'
import { byRosterNumber, somebody } from './somebody.ts'

/**
 * Who could stand at the posts of a ceremony that nobody who may is named to, of the soldiers whom this account may name; worked out
 * while the page loads. Nothing is stored: taking it is naming.
 */
export async function proposeManning(context: Context, actor: Actor, id: string): Promise<ManningProposal> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  const ceremony = await readCeremony(context.db, scope, id)
  if (!ceremony) throw notFound('ceremony')
  const today = await todayOf(context, ceremony.unitId)
  const rows = await readOutlook(context.db, namingScope(scope), {
    ceremonyId: id,
    unitId: undefined,
    today,
    limit: MOST_ROWS + 1,
  })
  if (rows.length > MOST_ROWS) {
    throw invalid('unit-too-large', 'id', 'So many people make no proposal; plan the ceremony for a unit further down.')
  }
  const people = new Map<string, FactsRow>([...ceremony.facts, ...rows].map((row) => [row.soldierId, row]))
  const stood = await countStood(context.db, [...people.keys()], { ceremonyId: id, day: ceremony.day, days: LOAD_DAYS })
  const posts = openTo(ceremony, await reachOf(context.db, actor, scope, ceremony.unitId))
  const problem = manningProblem(factsFor(ceremony, posts, rows, people, stood))
  const { pairs } = solveManning(problem)
  const short = shortSets(problem, pairs)
  const helpers = await findWouldHelp(
    context,
    scope,
    ceremony,
    rows,
    short.map((one) => one.posts),
    today,
  )
  return {
    ceremonyId: id,
    version: ceremony.version,
    ...answerOf(problem, pairs, people, stood),
    short: short.map(({ posts: of, soldiers }, at) => ({
      posts: [...of],
      soldiers: soldiers.map((soldierId) => somebody(people.get(soldierId)!)).sort(byRosterNumber),
      wouldHelp: helpers[at]!,
    })),
  }
}

/** The posts that an account may name somebody to: none of one called off, nor where another unit's soldier is named for it. */
function openTo({ cancelReason, posts, facts }: CeremonyRow, reach: Reach): CeremonyRow['posts'] {
  if (cancelReason !== null || reach === 'look') return []
  const others = new Set(facts.filter(({ inScope }) => !inScope).map(({ soldierId }) => soldierId))
  return posts.filter(({ soldierId }) => reach === 'plan' || soldierId === null || !others.has(soldierId))
}

function factsFor(
  ceremony: CeremonyRow,
  posts: CeremonyRow['posts'],
  rows: readonly OutlookRow[],
  people: ReadonlyMap<string, FactsRow>,
  stood: ReadonlyMap<string, number>,
): ManningFacts {
  const known = new Map<string, FactsRow>(
    [...rows, ...ceremony.facts].map((row) => [`${row.soldierId} ${row.certification}`, row]),
  )
  return {
    letGo: false,
    ceremonies: [
      {
        id: ceremony.id,
        occasion: occasionOf(ceremony),
        posts,
        alternates: [
          ...ceremony.alternates.map(({ soldierId }) => soldierId),
          // Who is named to a post that is not to be touched is taken, too.
          ...ceremony.posts.filter((post) => !posts.includes(post)).flatMap(({ soldierId }) => soldierId ?? []),
        ],
        alternatesWanted: posts.length === 0 ? 0 : alternatesWanted(ceremony),
      },
    ],
    soldiers: [...people.values()]
      .sort(byRosterNumber)
      .map(({ soldierId, heightCm }) => ({ id: soldierId, stood: stood.get(soldierId) ?? 0, heightCm })),
    factsOf: (_, soldierId, certification) => known.get(`${soldierId} ${certification}`) ?? null,
  }
}

function answerOf(
  problem: PlanProblem,
  pairs: readonly string[],
  people: ReadonlyMap<string, FactsRow>,
  stood: ReadonlyMap<string, number>,
): Pick<ManningProposal, 'open' | 'posts' | 'alternates' | 'fair'> {
  const taken = new Set(pairs)
  const soldierOf = (place: string) => place.slice(0, place.lastIndexOf('@'))
  const proposed = (soldierId: string) => ({ ...somebody(people.get(soldierId)!), stood: stood.get(soldierId) ?? 0 })
  const isPost = new Set(problem.wanted.filter(({ kind }) => kind === 'post').map(({ id }) => id))
  const chosen = problem.pairs.filter(({ id }) => taken.has(id))
  const posts = chosen.filter(({ wanted }) => isPost.has(wanted))
  const could = problem.pairs.filter(({ wanted }) => isPost.has(wanted)).map(({ place }) => soldierOf(place))
  const named = new Set(posts.map(({ place }) => soldierOf(place)))
  const spread = (ids: readonly string[]) => {
    const counts = ids.map((soldierId) => stood.get(soldierId) ?? 0)
    return counts.length === 0 ? null : { least: Math.min(...counts), most: Math.max(...counts) }
  }
  const own = spread([...named])
  return {
    open: isPost.size,
    posts: posts.map(({ wanted, place }) => ({ postId: wanted, soldier: proposed(soldierOf(place)) })),
    alternates: chosen.filter(({ wanted }) => !isPost.has(wanted)).map(({ place }) => proposed(soldierOf(place))),
    fair: own && { ...own, others: spread([...new Set(could)].filter((soldierId) => !named.has(soldierId))) },
  }
}
