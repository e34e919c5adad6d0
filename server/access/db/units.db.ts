import type { Unit, UnitBody, UnitChangeBody } from '../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { reachOf, unitInScope } from './scope.db.ts'

/** A page of units by name, then id, each with the zone that holds in it (`defaultZone` where none above says). */
export async function listUnits(
  tx: Transaction,
  scope: Scope,
  defaultZone: string,
  page: { limit: number; after: { name: string; id: string } | null },
): Promise<Unit[]> {
  return tx.$queryRaw<Unit[]>`
    SELECT id::text, name, kind, parent_id::text AS "parentId", time_zone AS "timeZone",
      COALESCE((SELECT above.time_zone FROM unnest(lineage) WITH ORDINALITY AS line(id, height)
        JOIN unit above ON above.id = line.id WHERE above.time_zone IS NOT NULL ORDER BY height LIMIT 1),
        ${defaultZone}) AS zone, closed_from::text AS "closedFrom", place, continues::text[] AS continues
    FROM unit WHERE ${unitInScope(scope, Prisma.sql`unit.id`)} AND (${page.after === null} OR (name, id) > (${page.after?.name ?? ''}, ${page.after?.id ?? null}::uuid))
    ORDER BY name, id LIMIT ${page.limit}`
}

/** The zone that holds in a unit: its own or the nearest above; null where none says. */
export async function readTimeZone(tx: Transaction, unitId: string): Promise<string | null> {
  const rows = await tx.$queryRaw<{ timeZone: string }[]>`
    SELECT above.time_zone AS "timeZone" FROM unit u
    CROSS JOIN LATERAL unnest(u.lineage) WITH ORDINALITY AS line(id, height)
    JOIN unit above ON above.id = line.id
    WHERE u.id = ${unitId}::uuid AND above.time_zone IS NOT NULL ORDER BY height LIMIT 1`
  return rows[0]?.timeZone ?? null
}

/** The zone that holds in a soldier's unit: of the period that covers a day, else of the nearest; null where none says. */
export async function readSoldierTimeZone(tx: Transaction, soldierId: string, day: string): Promise<string | null> {
  const rows = await tx.$queryRaw<{ timeZone: string | null }[]>`
    SELECT (SELECT above.time_zone FROM unnest(u.lineage) WITH ORDINALITY AS line(id, height)
      JOIN unit above ON above.id = line.id WHERE above.time_zone IS NOT NULL ORDER BY height LIMIT 1) AS "timeZone"
    FROM soldier_period p JOIN unit u ON u.id = p.unit_id WHERE p.soldier_id = ${soldierId}::uuid
    ORDER BY daterange(p.from_day, p.through_day, '[]') @> ${day}::date DESC, abs(p.from_day - ${day}::date) LIMIT 1`
  return rows[0]?.timeZone ?? null
}

/** The zone of the top of the tree; null where there is no unit or it has none. */
export async function readTopTimeZone(tx: Transaction): Promise<string | null> {
  const top = await tx.unit.findFirst({ where: { parentId: null }, orderBy: [{ name: 'asc' }, { id: 'asc' }] })
  return top?.timeZone ?? null
}

/** By unit its lineage: itself and all above it, nearest first. */
export async function readLineages(tx: Transaction, ids: readonly string[]): Promise<Map<string, string[]>> {
  if (ids.length === 0) return new Map()
  const rows = await tx.$queryRaw<{ id: string; lineage: string[] }[]>`
    SELECT id::text, lineage::text[] AS lineage FROM unit WHERE id = ANY(${[...ids]}::uuid[])`
  return new Map(rows.map(({ id, lineage }) => [id, lineage]))
}

/** Units among these that exist and a scope lets one see. */
export async function unitsInScope(tx: Transaction, scope: Scope, ids: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM unit WHERE id = ANY(${[...ids]}::uuid[]) AND ${unitInScope(scope, Prisma.sql`unit.id`)}`
  return rows.map(({ id }) => id)
}

/** Whether a unit is the top one or below it, or what it was before it moved; false where either is not there. */
export async function isAtOrBelow(tx: Transaction, unitId: string, topId: string): Promise<boolean> {
  const [row] = await tx.$queryRaw<[{ below: boolean }]>`
    SELECT ${unitId}::uuid = ANY(${reachOf(topId)}) AS below`
  return row.below
}

/** Units that exist among these. */
export async function existingUnits(tx: Transaction, ids: readonly string[]): Promise<string[]> {
  const rows = await tx.unit.findMany({ where: { id: { in: [...ids] } }, select: { id: true } })
  return rows.map(({ id }) => id)
}

/** Adds a unit, after its sisters where these are in an order of their own. `continues`: what it was before it moved. */
export async function insertUnit(
  tx: Transaction,
  { name, kind, parentId, timeZone }: UnitBody,
  continues: readonly string[] = [],
): Promise<string> {
  const [row] = await tx.$queryRaw<[{ id: string }]>`
    INSERT INTO unit (name, kind, parent_id, time_zone, lineage, continues, place)
    SELECT ${name}, ${kind}, ${parentId}::uuid, ${timeZone}, '{}', ${[...continues]}::uuid[],
      (SELECT CASE WHEN max(place) > 0 THEN max(place) + 1 ELSE 0 END FROM unit
        WHERE parent_id IS NOT DISTINCT FROM ${parentId}::uuid)
    RETURNING id::text`
  return row.id
}

/** The units right below one (null: the tops). Nobody changes them until the transaction ends. */
export async function lockSisters(tx: Transaction, parentId: string | null): Promise<{ id: string; name: string }[]> {
  return tx.$queryRaw<{ id: string; name: string }[]>`
    SELECT id::text, name FROM unit WHERE parent_id IS NOT DISTINCT FROM ${parentId}::uuid
    ORDER BY place, name, id FOR UPDATE`
}

/** Puts units in the order given. */
export async function placeUnits(tx: Transaction, ids: readonly string[]): Promise<void> {
  await tx.$executeRaw`
    UPDATE unit SET place = x.place FROM unnest(${[...ids]}::uuid[]) WITH ORDINALITY AS x(id, place) WHERE unit.id = x.id`
}

/** What a unit is, for who is about to change it: nobody else changes or removes it until the transaction ends. Null: none. */
export async function lockUnit(tx: Transaction, id: string): Promise<LockedUnit | null> {
  const [row] = await tx.$queryRaw<LockedUnit[]>`
    SELECT name, kind, parent_id::text AS "parentId", time_zone AS "timeZone", closed_from::text AS "closedFrom"
    FROM unit WHERE id = ${id}::uuid FOR UPDATE`
  return row ?? null
}

/** From when a unit is closed: nobody closes, opens or removes it until the transaction ends. Null: open, or none. */
export async function shareUnit(tx: Transaction, id: string): Promise<ClosedUnit | null> {
  const [row] = await tx.$queryRaw<(Omit<ClosedUnit, 'from'> & { from: string | null })[]>`
    SELECT id::text, name, closed_from::text AS "from" FROM unit WHERE id = ${id}::uuid FOR KEY SHARE`
  return row && row.from !== null ? { ...row, from: row.from } : null
}

export interface LockedUnit extends UnitBody {
  readonly closedFrom: string | null
}

/** A unit that is closed from a day on. */
export interface ClosedUnit {
  readonly id: string
  readonly name: string
  readonly from: string
}

/** The units that are closed, among these (null: among all). */
export async function readClosedUnits(tx: Transaction, ids: readonly string[] | null): Promise<ClosedUnit[]> {
  return tx.$queryRaw<ClosedUnit[]>`
    SELECT id::text, name, closed_from::text AS "from" FROM unit
    WHERE closed_from IS NOT NULL AND (${ids === null} OR id = ANY(${[...new Set(ids)]}::uuid[]))`
}

/** What there is in a unit on a day or later, so that it cannot be closed from then on: words, with how many. */
export async function unitIsNeededFrom(tx: Transaction, id: string, day: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ what: string; count: number }[]>`
    SELECT what, count::int FROM (VALUES
      ('in it', (SELECT count(DISTINCT soldier_id) FROM soldier_period WHERE unit_id = ${id}::uuid
        AND (through_day IS NULL OR through_day >= ${day}::date))),
      ('units below it that are open', (SELECT count(*) FROM unit WHERE parent_id = ${id}::uuid
        AND (closed_from IS NULL OR closed_from > ${day}::date))),
      ('ceremonies', (SELECT count(*) FROM ceremony WHERE unit_id = ${id}::uuid AND cancelled_at IS NULL
        AND day >= ${day}::date)),
      ('test days', (SELECT count(*) FROM test_day WHERE unit_id = ${id}::uuid AND called_off_at IS NULL
        AND on_day >= ${day}::date))
    ) AS needed(what, count) WHERE count > 0`
  return rows.map(({ what, count }) => `${count} ${what}`)
}

/** In: what changes; what is undefined stays. */
export async function updateUnit(tx: Transaction, id: string, change: UnitChangeBody): Promise<void> {
  const { closedFrom, ...rest } = change
  const given = Object.fromEntries(Object.entries(rest).filter(([, value]) => value !== undefined))
  const data = closedFrom === undefined ? given : { ...given, closedFrom: closedFrom && new Date(closedFrom) }
  await tx.unit.update({ where: { id }, data, select: { id: true } })
}

/** What names a unit, so that it cannot go: a word for each. */
export async function unitIsNamedBy(tx: Transaction, id: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ what: string }[]>`
    SELECT what FROM (VALUES
      ('units below it', EXISTS (SELECT FROM unit WHERE parent_id = ${id}::uuid)),
      ('soldiers who are or were in it', EXISTS (SELECT FROM soldier_change WHERE unit_id = ${id}::uuid)
        OR EXISTS (SELECT FROM soldier_period WHERE unit_id = ${id}::uuid)),
      ('ceremonies', EXISTS (SELECT FROM ceremony WHERE unit_id = ${id}::uuid)),
      ('test days', EXISTS (SELECT FROM test_day WHERE unit_id = ${id}::uuid)),
      ('accounts', EXISTS (SELECT FROM account WHERE unit_id = ${id}::uuid)),
      ('figures', EXISTS (SELECT FROM sheet WHERE tallied_unit_id = ${id}::uuid)),
      ('asks for a soldier', EXISTS (SELECT FROM soldier_ask WHERE unit_id = ${id}::uuid)),
      ('plans', EXISTS (SELECT FROM plan WHERE unit_id = ${id}::uuid)),
      ('terms of a certification', EXISTS (SELECT FROM certification_terms WHERE required_units ? ${id}::text))
    ) AS named(what, is_there) WHERE is_there`
  return rows.map(({ what }) => what)
}

export async function deleteUnit(tx: Transaction, id: string): Promise<void> {
  await tx.unit.delete({ where: { id }, select: { id: true } })
}
