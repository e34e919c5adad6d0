import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

/** Ids of the units at and below one. */
export const subtree = (unitId: string): Prisma.Sql =>
  Prisma.sql`ARRAY(SELECT id FROM unit WHERE lineage @> ARRAY[${unitId}::uuid])`

/** Ids of what an account of a unit reaches: the units at and below it, and at and below what it was before it moved. */
export const reachOf = (unitId: string): Prisma.Sql =>
  Prisma.sql`ARRAY(SELECT id FROM unit
    WHERE lineage && ARRAY(SELECT unnest(own.id || own.continues) FROM unit own WHERE own.id = ${unitId}::uuid))`

/** SQL that is true for the soldiers of a unit, or one below it, on a day: those few are found first, by an index. */
export const servesIn = (soldierId: Prisma.Sql, unitId: string, day: string): Prisma.Sql =>
  Prisma.sql`${soldierId} IN (SELECT soldier_id FROM soldier_period WHERE unit_id = ANY(${subtree(unitId)}) AND ${onDay(day)})`

const onDay = (day: string): Prisma.Sql => Prisma.sql`daterange(from_day, through_day, '[]') @> ${day}::date`

/**
 * SQL that is true for the soldiers whom a scope lets one see. A grader sees those booked with them; a second grader not
 * while the first one's sheet is stored and the own is not, for all that is said of the candidate would tell how it went.
 * In: SQL of the soldier's id; SQL of their unit on the day asked about, where the question has one (null: their unit today).
 */
export function soldierInScope(scope: Scope, soldierId: Prisma.Sql, unitId: Prisma.Sql | null = null): Prisma.Sql {
  if (scope.everyone) return Prisma.sql`true`
  const inUnit = (top: string) =>
    unitId === null
      ? Prisma.sql`EXISTS (SELECT FROM soldier_period of_day WHERE of_day.soldier_id = ${soldierId}
          AND ${onDay(scope.today)} AND of_day.unit_id = ANY(${reachOf(top)}))`
      : Prisma.sql`${unitId} = ANY(${reachOf(top)})`
  const ways = [Prisma.sql`false`]
  if (scope.unitId !== null) ways.push(inUnit(scope.unitId))
  const people = peopleOf(scope)
  if (people.length > 0) ways.push(Prisma.sql`${soldierId} = ANY(ARRAY(${Prisma.join(people, ' UNION ')}))`)
  const visible = Prisma.sql`(${Prisma.join(ways, ' OR ')})`
  return scope.within ? Prisma.sql`(${visible} AND ${inUnit(scope.within)})` : visible
}

/** SQL that is true for the soldiers of the strength on a day whom a scope lets one see: where they are few they are found first. */
export const servesInScope = (scope: Scope, soldierId: Prisma.Sql, day: string): Prisma.Sql =>
  scope.everyone
    ? Prisma.sql`true`
    : Prisma.sql`${soldierId} IN (SELECT mine.soldier_id FROM soldier_period mine WHERE ${onDay(day)}
        AND ${soldierInScope(scope, Prisma.sql`mine.soldier_id`, Prisma.sql`mine.unit_id`)})`

/**
 * SQL of those whom one sees for what they are to oneself: few, so that an array of their ids leads to their rows by an
 * index, where one more condition in a row of ORs would have every soldier looked at.
 */
function peopleOf(scope: Scope): Prisma.Sql[] {
  const people: Prisma.Sql[] = []
  if (scope.selfId !== null) people.push(Prisma.sql`SELECT ${scope.selfId}::uuid`)
  if (scope.sponsorId !== null) {
    people.push(Prisma.sql`SELECT candidate_id FROM sponsorship WHERE sponsor_id = ${scope.sponsorId}::uuid
      AND daterange(from_day, to_day, '[]') @> ${scope.today}::date`)
  }
  if (scope.graderId !== null) {
    people.push(Prisma.sql`(SELECT candidate_id FROM booking
      WHERE (grader_id = ${scope.graderId}::uuid OR second_grader_id = ${scope.graderId}::uuid) AND state <> 'cancelled'
      EXCEPT SELECT candidate_id FROM booking blind WHERE second_grader_id = ${scope.graderId}::uuid
        AND sheet_id IS NOT NULL AND NOT EXISTS (SELECT FROM sheet own
          WHERE own.grader_id = ${scope.graderId}::uuid AND own.candidate_id = blind.candidate_id
            AND own.second_of IS NOT NULL AND (own.second_of = blind.sheet_id OR own.test_day_id = blind.test_day_id)))`)
  }
  return people
}

/** SQL that is true for the sheets a scope lets one see: those of its soldiers, and (with no limit to a unit) those the grader graded. */
export function sheetInScope(scope: Scope, candidateId: Prisma.Sql, graderId: Prisma.Sql): Prisma.Sql {
  const visible = soldierInScope(scope, candidateId)
  if (scope.everyone || scope.graderId === null || scope.within) return visible
  return Prisma.sql`(${visible} OR ${graderId} = ${scope.graderId}::uuid)`
}

/**
 * SQL that is false for a sheet which a grader must not see yet, for two graders of one attempt judge independently: the
 * first grader's while the second's is not stored, and the second's while the first's is not. Their own they always see.
 * In: the alias of the sheet in the question.
 */
export function sheetNotBlinded(scope: Scope, alias: string): Prisma.Sql {
  if (scope.graderId === null) return Prisma.sql`true`
  const s = Prisma.raw(alias)
  const me = Prisma.sql`${scope.graderId}::uuid`
  return Prisma.sql`(${s}.grader_id = ${me} OR NOT (
    EXISTS (SELECT FROM booking WHERE second_grader_id = ${me} AND sheet_id = ${s}.id AND NOT EXISTS
      (SELECT FROM sheet own WHERE own.grader_id = ${me} AND own.second_of = ${s}.id))
    OR EXISTS (SELECT FROM running_test WHERE grader_id = ${me} AND second_of = ${s}.id)
    OR ${s}.second_of IS NOT NULL AND (NOT EXISTS (SELECT FROM sheet first WHERE first.id = ${s}.second_of)
      OR EXISTS (SELECT FROM running_test WHERE grader_id = ${me} AND id = ${s}.second_of))))`
}

/** SQL that is true for the units a scope lets one see: at, below and above its own, and above its soldiers today. */
export function unitInScope(scope: Scope, unitId: Prisma.Sql): Prisma.Sql {
  if (scope.everyone) return Prisma.sql`true`
  const own =
    scope.unitId === null
      ? Prisma.sql`false`
      : Prisma.sql`(${unitId} = ANY(${reachOf(scope.unitId)})
          OR ${unitId} = ANY((SELECT lineage FROM unit WHERE id = ${scope.unitId}::uuid)::uuid[]))`
  const visible = soldierInScope({ ...scope, unitId: null }, Prisma.sql`soldier_period.soldier_id`)
  return Prisma.sql`(${own} OR ${unitId} IN (SELECT unnest(u.lineage) FROM soldier_period JOIN unit u ON u.id = unit_id
    WHERE ${onDay(scope.today)} AND ${visible}))`
}
