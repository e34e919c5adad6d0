import type { Transaction } from '../../db/client.ts'

/** A unit that may move. */
export interface MovingUnit {
  readonly id: string
  readonly name: string
  readonly kind: string
  readonly parentId: string | null
  readonly timeZone: string | null
  readonly closedFrom: string | null
  readonly place: number
  readonly continues: readonly string[]
}

/** Nobody changes a unit, those below it or who is in them until the transaction ends. */
export async function lockTree(tx: Transaction, id: string): Promise<void> {
  await tx.$queryRaw`SELECT id FROM unit WHERE lineage @> ARRAY[${id}::uuid] ORDER BY id FOR UPDATE`
}

/** A unit and all below it, each after the one above. */
export async function readTree(tx: Transaction, id: string): Promise<MovingUnit[]> {
  return tx.$queryRaw<MovingUnit[]>`
    SELECT id::text, name, kind, parent_id::text AS "parentId", time_zone AS "timeZone", closed_from::text AS "closedFrom",
      place, continues::text[] AS continues
    FROM unit WHERE lineage @> ARRAY[${id}::uuid] ORDER BY cardinality(lineage), place, name, id`
}

/** Who is in one of these units on a day or later. */
export async function peopleFrom(tx: Transaction, units: readonly string[], from: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT soldier_id::text AS id FROM soldier_period
    WHERE unit_id = ANY(${[...units]}::uuid[]) AND (through_day IS NULL OR through_day >= ${from}::date)
    UNION SELECT soldier_id::text FROM soldier_change
    WHERE unit_id = ANY(${[...units]}::uuid[]) AND from_day >= ${from}::date ORDER BY id`
  return rows.map(({ id }) => id)
}

/** What is planned for these units on a day or later, and how many accounts belong to one of them. */
export async function countPlanned(
  tx: Transaction,
  units: readonly string[],
  from: string,
): Promise<{ testDays: number; ceremonies: number; accounts: number }> {
  const [row] = await tx.$queryRaw<[{ testDays: number; ceremonies: number; accounts: number }]>`
    WITH moving AS (SELECT unnest(${[...units]}::uuid[]) AS id)
    SELECT
      (SELECT count(*)::int FROM test_day JOIN moving ON moving.id = unit_id
        WHERE on_day >= ${from}::date AND called_off_at IS NULL) AS "testDays",
      (SELECT count(*)::int FROM ceremony JOIN moving ON moving.id = unit_id
        WHERE day >= ${from}::date AND cancelled_at IS NULL) AS ceremonies,
      (SELECT count(*)::int FROM account JOIN moving ON moving.id = unit_id) AS accounts`
  return row
}

/** Titles of certifications that from a day on are required of a unit by what is above it now, and not there, or there and not now. */
export async function requiredOtherwise(
  tx: Transaction,
  { id, parentId, from }: { id: string; parentId: string | null; from: string },
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ title: string }[]>`
    SELECT DISTINCT title FROM (
      SELECT c.title, ARRAY(SELECT jsonb_array_elements_text(t.required_units)::uuid) AS units,
        lead(t.effective_from) OVER (PARTITION BY t.certification_id ORDER BY t.effective_from) AS until, t.required_units
      FROM certification_terms t JOIN certification c ON c.id = t.certification_id) terms
    WHERE jsonb_typeof(required_units) = 'array' AND (until IS NULL OR until > ${from}::date)
      AND (units && (SELECT lineage FROM unit WHERE id = ${id}::uuid))
        <> (units && (${id}::uuid || COALESCE((SELECT lineage FROM unit WHERE id = ${parentId}::uuid), '{}')))
    ORDER BY title`
  return rows.map(({ title }) => title)
}

/** By old unit the one that goes on from it. */
type GoesOnAs = ReadonlyMap<string, string>

/** SQL of pairs "was", "is". */
const pairs = (goesOnAs: GoesOnAs): string => JSON.stringify([...goesOnAs].map(([was, is]) => ({ was, is })))

/** Changes of soldiers from a day on name the units that go on from those they named. */
export async function renameInChanges(tx: Transaction, goesOnAs: GoesOnAs, from: string): Promise<void> {
  await tx.$executeRaw`
    UPDATE soldier_change SET unit_id = x."is" FROM jsonb_to_recordset(${pairs(goesOnAs)}::jsonb) AS x(was uuid, "is" uuid)
    WHERE unit_id = x.was AND from_day >= ${from}::date`
}

/** What is planned from a day on goes along, and so do accounts and the tokens of these. Out: the ids of these accounts. */
export async function takeAlong(tx: Transaction, goesOnAs: GoesOnAs, from: string): Promise<string[]> {
  const moved = pairs(goesOnAs)
  await tx.$executeRaw`
    UPDATE test_day SET unit_id = x."is" FROM jsonb_to_recordset(${moved}::jsonb) AS x(was uuid, "is" uuid)
    WHERE unit_id = x.was AND on_day >= ${from}::date`
  await tx.$executeRaw`
    UPDATE ceremony SET unit_id = x."is" FROM jsonb_to_recordset(${moved}::jsonb) AS x(was uuid, "is" uuid)
    WHERE unit_id = x.was AND day >= ${from}::date`
  const accounts = await tx.$queryRaw<{ id: string }[]>`
    UPDATE account SET unit_id = x."is" FROM jsonb_to_recordset(${moved}::jsonb) AS x(was uuid, "is" uuid)
    WHERE unit_id = x.was RETURNING id::text`
  const ids = accounts.map(({ id }) => id)
  await tx.$executeRaw`
    UPDATE script_token t SET unit_id = x."is" FROM jsonb_to_recordset(${moved}::jsonb) AS x(was uuid, "is" uuid), account a
    WHERE t.unit_id = x.was AND a.id = t.account_id AND (a.unit_id IS NULL OR a.id = ANY(${ids}::uuid[]))`
  return ids
}

/** Terms that are for one of the units are for the one that goes on from it, too. Out: whether there were any. */
export async function renameInTerms(tx: Transaction, goesOnAs: GoesOnAs): Promise<boolean> {
  const changed = await tx.$executeRaw`
    UPDATE certification_terms SET required_units = required_units || added.ids
    FROM (SELECT t.certification_id, t.effective_from, jsonb_agg(x."is" ORDER BY x."is") AS ids
      FROM certification_terms t JOIN jsonb_to_recordset(${pairs(goesOnAs)}::jsonb) AS x(was text, "is" text)
        ON jsonb_typeof(t.required_units) = 'array' AND t.required_units ? x.was
      GROUP BY t.certification_id, t.effective_from) added
    WHERE certification_terms.certification_id = added.certification_id
      AND certification_terms.effective_from = added.effective_from`
  return changed > 0
}

/** Takes a unit that is gone, since it was made by mistake, out of what others continue. */
export async function removeFromPasts(tx: Transaction, gone: string): Promise<void> {
  await tx.$executeRaw`UPDATE unit SET continues = array_remove(continues, ${gone}::uuid) WHERE continues @> ARRAY[${gone}::uuid]`
}

/** Puts a unit in the place it had among its sisters. */
export async function keepPlace(tx: Transaction, id: string, place: number): Promise<void> {
  await tx.unit.update({ where: { id }, data: { place }, select: { id: true } })
}
