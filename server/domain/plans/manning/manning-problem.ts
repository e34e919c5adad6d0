import type { PostNeed, SoldierFacts } from '../../manning/types.ts'
import { type Occasion, whyNot } from '../../manning/why-not.ts'
import type { AtMost, Pair, PlanItem, PlanProblem } from '../problem.ts'
import { evenTerms, type Height } from './even-terms.ts'

interface PostToMan extends PostNeed {
  readonly id: string
  readonly title: string
  readonly row: number
  readonly certification: string
  /** Who is named; null: nobody. */
  readonly soldierId: string | null
}

export interface CeremonyToMan {
  readonly id: string
  readonly occasion: Occasion
  readonly posts: readonly PostToMan[]
  /** Soldiers who are alternates already. */
  readonly alternates: readonly string[]
  /** So many alternates more are wanted. */
  readonly alternatesWanted: number
}

interface SoldierToName {
  readonly id: string
  /** Ceremonies stood in the days that count, named ahead included, those that are planned left out. */
  readonly stood: number
  /** Null: not known. */
  readonly heightCm: number | null
}

export interface ManningFacts {
  readonly ceremonies: readonly CeremonyToMan[]
  readonly soldiers: readonly SoldierToName[]
  /** What is known of a soldier for a ceremony and a certification; null: they are not asked there. */
  readonly factsOf: (ceremonyId: string, soldierId: string, certification: string) => SoldierFacts | null
  /** Whether those named who can stand may be moved; else they stay. */
  readonly letGo: boolean
}

/** The kind of what is wanted. */
type ManningWanted = PlanItem & { readonly kind: 'post' | 'alternate'; readonly ceremony: string }

/**
 * The problem of manning ceremonies, for one or all of a period. Wanted are posts without somebody who can stand there (with
 * `letGo` all posts), and alternates; places are soldiers at a time: ceremonies whose duties overlap share one. A pair is there where
 * `whyNot` says nothing.
 *
 * Levels: most posts filled; fewest of those named changed; fair: least sum of squares of ceremonies stood; even: in each rank the least
 * sum of differences from a middle height, that of those who stay or else the median of who could stand there (who has no known
 * height counts as the worst); most alternates.
 */
export function manningProblem(facts: ManningFacts): PlanProblem {
  const groups = groupOf(facts.ceremonies)
  const able = ableFor(facts)
  const staying = stayingOf(facts.ceremonies)
  const draft: Draft = { wanted: [], pairs: [], places: new Map() }
  const { pairs: postPairs, heights, kept } = addPosts(draft, facts, groups, able, staying)
  const alternatePairs = addAlternates(draft, facts, groups, able, staying)
  const { wanted, pairs, places } = draft
  return {
    kind: 'manning',
    wanted,
    places: [...places.values()],
    pairs,
    atMost: overlapsBetween(facts.ceremonies, groups, wanted, pairs),
    levels: [
      { name: 'posts filled', sense: 'max', constant: 0, terms: postPairs.map(({ id }) => [id, 1]) },
      { name: 'names changed', sense: 'min', constant: kept.length, terms: kept },
      { name: 'fair', sense: 'min', squares: squaresOf(facts.soldiers, postPairs, places) },
      { name: 'even', sense: 'min', constant: 0, terms: evenTerms(heights, facts) },
      { name: 'alternates', sense: 'max', constant: 0, terms: alternatePairs.map(({ id }) => [id, 1]) },
    ],
  }
}

/** The problem while it is put together. */
interface Draft {
  readonly wanted: ManningWanted[]
  readonly pairs: Pair[]
  readonly places: Map<string, PlanItem & { readonly soldier: string; readonly ceremonies: string[] }>
}

type Groups = ReadonlyMap<string, string>

/** Adds the pair of what is wanted with a soldier at the time of a ceremony. */
function addPair({ pairs, places }: Draft, groups: Groups, wanted: string, ceremonyId: string, soldier: string): Pair {
  const place = `${soldier}@${groups.get(ceremonyId)!}`
  if (!places.has(place)) places.set(place, { id: place, soldier, ceremonies: [] })
  const pair = { id: `p${pairs.length + 1}`, wanted, place }
  pairs.push(pair)
  return pair
}

/** Who is named to a post or an alternate, as ceremony and soldier. */
function stayingOf(ceremonies: readonly CeremonyToMan[]): ReadonlySet<string> {
  return new Set(
    ceremonies.flatMap(({ id, posts, alternates }) =>
      [...posts.map(({ soldierId }) => soldierId), ...alternates]
        .filter((soldierId) => soldierId !== null)
        .map((soldierId) => `${id} ${soldierId}`),
    ),
  )
}

/** Adds the posts that somebody is wanted for. Out: their pairs, the heights these would bring, and those that leave a name as it is. */
function addPosts(
  draft: Draft,
  { ceremonies, soldiers, letGo }: ManningFacts,
  groups: Groups,
  able: ReturnType<typeof ableFor>,
  staying: ReadonlySet<string>,
) {
  const pairs: Pair[] = []
  const heights: Height[] = []
  const kept: [pair: string, coefficient: number][] = []
  for (const ceremony of ceremonies) {
    for (const post of ceremony.posts) {
      const those = able(ceremony, post)
      const named = post.soldierId !== null && those.has(post.soldierId) ? post.soldierId : null
      if (named !== null && !letGo) continue
      const { id, title, row, soldierId } = post
      draft.wanted.push({ id, kind: 'post', ceremony: ceremony.id, title, row, named, soldierId })
      for (const soldier of soldiers) {
        if (!those.has(soldier.id)) continue
        const isFree = soldier.id === named || letGo || !staying.has(`${ceremony.id} ${soldier.id}`)
        if (!isFree || ceremony.alternates.includes(soldier.id)) continue
        const pair = addPair(draft, groups, id, ceremony.id, soldier.id)
        pairs.push(pair)
        heights.push({ pair: pair.id, rank: `${ceremony.id} ${row}`, heightCm: soldier.heightCm })
        if (soldier.id === named) kept.push([pair.id, -1])
      }
    }
  }
  return { pairs, heights, kept }
}

/** Adds the alternates that are wanted: whoever could take any post of the ceremony. Out: their pairs. */
function addAlternates(
  draft: Draft,
  { ceremonies, soldiers }: ManningFacts,
  groups: Groups,
  able: ReturnType<typeof ableFor>,
  staying: ReadonlySet<string>,
): Pair[] {
  const pairs: Pair[] = []
  for (const ceremony of ceremonies) {
    const ableSomewhere = new Set(ceremony.posts.flatMap((post) => [...able(ceremony, post)]))
    for (let nth = 1; nth <= ceremony.alternatesWanted; nth++) {
      const id = `${ceremony.id} alternate ${nth}`
      const nobody = { row: 0, named: null, soldierId: null }
      draft.wanted.push({ id, kind: 'alternate', ceremony: ceremony.id, title: `Alternate ${nth}`, ...nobody })
      for (const soldier of soldiers) {
        if (staying.has(`${ceremony.id} ${soldier.id}`) || !ableSomewhere.has(soldier.id)) continue
        pairs.push(addPair(draft, groups, id, ceremony.id, soldier.id))
      }
    }
  }
  return pairs
}

/** Who can stand at a post; posts of a ceremony that ask for the same are asked about once. */
function ableFor({ soldiers, factsOf }: ManningFacts) {
  const known = new Map<string, ReadonlySet<string>>()
  return (ceremony: CeremonyToMan, post: PostToMan): ReadonlySet<string> => {
    const { certification, arm, grades, minHeightCm, maxHeightCm } = post
    const key = JSON.stringify([ceremony.id, certification, arm, grades, minHeightCm, maxHeightCm])
    const found = known.get(key)
    if (found) return found
    const able = soldiers.filter(({ id }) => {
      const facts = factsOf(ceremony.id, id, certification)
      return facts !== null && whyNot(post, ceremony.occasion, facts).length === 0
    })
    const ids = new Set(able.map(({ id }) => id))
    known.set(key, ids)
    return ids
  }
}

function squaresOf(
  soldiers: readonly SoldierToName[],
  pairs: readonly Pair[],
  places: ReadonlyMap<string, { readonly soldier: string }>,
) {
  const bySoldier = new Map<string, string[]>()
  for (const { id, place } of pairs) {
    const { soldier } = places.get(place)!
    const own = bySoldier.get(soldier)
    if (own) own.push(id)
    else bySoldier.set(soldier, [id])
  }
  return soldiers.flatMap(({ id, stood }) => {
    const own = bySoldier.get(id)
    return own ? [{ base: stood, pairs: own }] : []
  })
}

const overlap = (one: CeremonyToMan, other: CeremonyToMan): boolean =>
  one.occasion.times.some((a) => other.occasion.times.some((b) => a.from < b.to && b.from < a.to))

/** Ceremonies at one time: each joins the first group all of which it overlaps. By ceremony, the first of its group. */
function groupOf(ceremonies: readonly CeremonyToMan[]): Map<string, string> {
  const groups: CeremonyToMan[][] = []
  for (const ceremony of ceremonies) {
    const group = groups.find((members) => members.every((member) => overlap(member, ceremony)))
    if (group) group.push(ceremony)
    else groups.push([ceremony])
  }
  return new Map(groups.flatMap((members) => members.map(({ id }) => [id, members[0]!.id])))
}

/** For each soldier and two overlapping ceremonies of different groups: one of them at most. */
function overlapsBetween(
  ceremonies: readonly CeremonyToMan[],
  groups: ReadonlyMap<string, string>,
  wanted: readonly ManningWanted[],
  pairs: readonly Pair[],
): AtMost[] {
  const ceremonyOf = new Map(wanted.map(({ id, ceremony }) => [id, ceremony]))
  const clashes = ceremonies.flatMap((one, at) =>
    ceremonies
      .slice(at + 1)
      .filter((other) => groups.get(one.id) !== groups.get(other.id) && overlap(one, other))
      .map((other) => [one.id, other.id] as const),
  )
  if (clashes.length === 0) return []
  const bySoldier = new Map<string, Map<string, string[]>>()
  for (const { id, wanted: of, place } of pairs) {
    const soldier = place.slice(0, place.lastIndexOf('@'))
    const own = bySoldier.get(soldier) ?? new Map<string, string[]>()
    bySoldier.set(soldier, own)
    const ceremony = ceremonyOf.get(of)!
    own.set(ceremony, [...(own.get(ceremony) ?? []), id])
  }
  return [...bySoldier.values()].flatMap((own) =>
    clashes.flatMap(([one, other]) => {
      const [here, there] = [own.get(one), own.get(other)]
      return here && there ? [{ pairs: [...here, ...there], max: 1 }] : []
    }),
  )
}
