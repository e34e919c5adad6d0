import { servesIn, soldierInScope } from '../../access/db/scope.db.ts'
import { patternsOf } from '../../access/db/words-fit.db.ts'
import type { Soldier } from '../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** Soldiers `s` with their period `p` of a day; outside the strength their last by then (or their first, before it). */
const withPeriod = (day: string): Prisma.Sql => Prisma.sql`
  FROM soldier s
  CROSS JOIN LATERAL (
    SELECT q.*, daterange(q.from_day, q.through_day, '[]') @> ${day}::date AS covers FROM soldier_period q
    WHERE q.soldier_id = s.id
    ORDER BY q.from_day <= ${day}::date DESC, abs(q.from_day - ${day}::date) LIMIT 1) p`

/** Soldiers as of a day. */
const asOf = (day: string): Prisma.Sql => Prisma.sql`
  SELECT s.id::text, s.roster_number AS "rosterNumber", s.family_name AS "familyName", s.given_name AS "givenName",
    p.grade, p.arms, CASE WHEN p.covers THEN p.unit_id::text END AS "unitId", first.joined::text AS joined,
    CASE WHEN NOT p.covers AND p.from_day <= ${day}::date THEN
      (SELECT json_build_object('on', c.from_day, 'kind', c."left") FROM soldier_change c
        WHERE c.soldier_id = s.id AND c."left" IS NOT NULL AND c.from_day <= ${day}::date
        ORDER BY c.from_day DESC, c.id DESC LIMIT 1) END AS left
  ${withPeriod(day)}
  CROSS JOIN LATERAL (SELECT min(from_day) AS joined FROM soldier_period WHERE soldier_id = s.id) first`

/** Of the strength that day, of it and absent, or not of it any more. */
export type StrengthState = 'serving' | 'absent' | 'left'

export interface RosterFilter {
  readonly day: string
  readonly unitId?: string | undefined
  readonly search?: string | undefined
  readonly grade?: string | undefined
  readonly arm?: string | undefined
  readonly strength?: StrengthState | undefined
}

const inStrength = (strength: StrengthState, day: string): Prisma.Sql => {
  if (strength === 'serving') return Prisma.sql`p.covers`
  if (strength === 'left') return Prisma.sql`NOT p.covers AND p.from_day <= ${day}::date`
  return Prisma.sql`p.covers AND EXISTS (SELECT FROM absence a WHERE a.soldier_id = s.id
    AND daterange(a.from_day, a.through_day, '[]') @> ${day}::date)`
}

/** A word that is searched for, as ILIKE takes it, and whether some grade holds it. */
interface SearchedWord {
  readonly pattern: string
  readonly isInGrade: boolean
}

/** The words of a search. Few are in a grade; of all others only names and numbers are looked at, by an index. */
async function wordsOf(tx: Transaction, search: string | undefined): Promise<SearchedWord[]> {
  const patterns = patternsOf(search ?? '')
  if (patterns.length === 0) return []
  return tx.$queryRaw<SearchedWord[]>`
    SELECT pattern, EXISTS (SELECT FROM grade WHERE code ILIKE pattern) AS "isInGrade"
    FROM unnest(${patterns}::text[]) AS asked(pattern)`
}

/** SQL of number and names in one, as the index of their parts has it. No word holds the space between. */
const NAMED = Prisma.sql`(s.roster_number || ' ' || s.family_name || ' ' || s.given_name)`

/** What a soldier must be to be asked for. Search looks at numbers, names and grades. */
function conditionsOf(
  scope: Scope,
  { day, unitId, grade, arm, strength }: RosterFilter,
  words: readonly SearchedWord[],
): Prisma.Sql[] {
  const unitThatDay = Prisma.sql`CASE WHEN p.covers THEN p.unit_id END`
  const conditions = [soldierInScope(scope, Prisma.sql`s.id`, unitThatDay)]
  if (unitId) conditions.push(servesIn(Prisma.sql`s.id`, unitId, day))
  if (grade) conditions.push(Prisma.sql`p.grade = ${grade}`)
  if (arm) conditions.push(Prisma.sql`${arm} = ANY(p.arms)`)
  if (strength) conditions.push(inStrength(strength, day))
  for (const { pattern, isInGrade } of words) {
    const isNamed = Prisma.sql`${NAMED} ILIKE ${pattern}`
    conditions.push(isInGrade ? Prisma.sql`(${isNamed} OR p.grade ILIKE ${pattern})` : isNamed)
  }
  return conditions
}

/** A page of the roster as of a day, by roster number. */
export async function listSoldiers(
  tx: Transaction,
  scope: Scope,
  filter: RosterFilter,
  page: { limit: number; after: string | null },
): Promise<Soldier[]> {
  const conditions = conditionsOf(scope, filter, await wordsOf(tx, filter.search))
  if (page.after !== null) conditions.push(Prisma.sql`s.roster_number > ${page.after}`)
  return tx.$queryRaw<Soldier[]>`
    ${asOf(filter.day)} WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY s.roster_number LIMIT ${page.limit}`
}

/** How many the pages of the roster hold together. Of everybody, who ever had a period is counted without a look at which. */
export async function countSoldiers(tx: Transaction, scope: Scope, filter: RosterFilter): Promise<number> {
  const { day, ...asked } = filter
  const isOfAll = scope.everyone && Object.values(asked).every((one) => !one)
  const counted = isOfAll
    ? Prisma.sql`FROM soldier s WHERE EXISTS (SELECT FROM soldier_period q WHERE q.soldier_id = s.id)`
    : Prisma.sql`${withPeriod(day)} WHERE ${Prisma.join(conditionsOf(scope, filter, await wordsOf(tx, filter.search)), ' AND ')}`
  const rows = await tx.$queryRaw<{ count: number }[]>`SELECT count(*)::int AS count ${counted}`
  return rows[0]!.count
}

/** Soldiers among these that exist and a scope lets one see. */
export async function soldiersInScope(tx: Transaction, scope: Scope, ids: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT s.id::text FROM soldier s WHERE s.id = ANY(${[...ids]}::uuid[]) AND ${soldierInScope(scope, Prisma.sql`s.id`)}`
  return rows.map(({ id }) => id)
}

/** These soldiers as of a day, in one question and in no order; those out of scope are left out. */
export async function readSoldiers(
  tx: Transaction,
  scope: Scope,
  ids: readonly string[],
  day: string,
): Promise<Soldier[]> {
  return tx.$queryRaw<Soldier[]>`
    ${asOf(day)} WHERE s.id = ANY(${[...ids]}::uuid[]) AND ${soldierInScope(scope, Prisma.sql`s.id`)}`
}

/** One soldier as of a day; null where there is none. */
export async function readSoldier(tx: Transaction, scope: Scope, id: string, day: string): Promise<Soldier | null> {
  const [soldier] = await readSoldiers(tx, scope, [id], day)
  return soldier ?? null
}
