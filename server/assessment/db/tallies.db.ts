import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { TallyDelta } from '../../domain/tallies/spread-contributions.ts'

const deltaRows = (deltas: readonly TallyDelta[]): Prisma.Sql => Prisma.sql`
  delta AS (
    SELECT * FROM jsonb_to_recordset(${JSON.stringify(deltas)}::jsonb) AS x(
      "unitId" uuid, "versionId" uuid, grain text, start date, arm text, kind text, attempts int, passes int,
      recorded int, stopped int, measures int[], faults int[], readings int[], people jsonb))`

const PEOPLE = Prisma.sql`jsonb_to_recordset(delta.people)
  AS person(role text, "soldierId" uuid, attempts int, passes int)`

/** Adds to tallies, in the order given. */
export async function addToTallies(tx: Transaction, deltas: readonly TallyDelta[]): Promise<void> {
  if (deltas.length === 0) return
  await tx.$executeRaw`
    WITH ${deltaRows(deltas)},
    changed AS (
      INSERT INTO tally AS t (unit_id, standard_version_id, grain, start, arm, kind, attempts, passes, recorded, stopped,
        measures, faults, readings)
      SELECT "unitId", "versionId", grain, start, arm, kind, attempts, passes, recorded, stopped, measures, faults,
        readings FROM delta
      ON CONFLICT (unit_id, standard_version_id, grain, start, arm, kind) DO UPDATE SET
        attempts = t.attempts + excluded.attempts, passes = t.passes + excluded.passes,
        recorded = t.recorded + excluded.recorded, stopped = t.stopped + excluded.stopped,
        measures = ARRAY(SELECT had + more FROM unnest(t.measures, excluded.measures) AS at(had, more)),
        faults = ARRAY(SELECT had + more FROM unnest(t.faults, excluded.faults) AS at(had, more)),
        readings = ARRAY(SELECT had + more FROM unnest(t.readings, excluded.readings) AS at(had, more))
      RETURNING id, unit_id, standard_version_id, grain, start, arm, kind)
    INSERT INTO person_tally AS p (tally_id, role, soldier_id, attempts, passes)
    SELECT t.id, person.role, person."soldierId", person.attempts, person.passes
    FROM delta JOIN changed t ON t.unit_id = delta."unitId" AND t.standard_version_id = delta."versionId"
      AND t.grain = delta.grain AND t.start = delta.start AND t.arm = delta.arm AND t.kind = delta.kind
    CROSS JOIN LATERAL ${PEOPLE}
    ON CONFLICT (tally_id, role, soldier_id) DO UPDATE SET attempts = p.attempts + excluded.attempts,
      passes = p.passes + excluded.passes`
}

/** Takes from tallies what was added to them before. */
export async function takeFromTallies(tx: Transaction, deltas: readonly TallyDelta[]): Promise<void> {
  if (deltas.length === 0) return
  await tx.$executeRaw`
    WITH ${deltaRows(deltas)},
    found AS MATERIALIZED (
      SELECT t.id AS tally_id, delta.* FROM delta CROSS JOIN LATERAL (
        SELECT id FROM tally WHERE unit_id = delta."unitId" AND standard_version_id = delta."versionId"
          AND grain = delta.grain AND start = delta.start AND arm = delta.arm AND kind = delta.kind FOR UPDATE) t),
    changed AS (
      UPDATE tally AS t SET attempts = t.attempts - delta.attempts, passes = t.passes - delta.passes,
        recorded = t.recorded - delta.recorded, stopped = t.stopped - delta.stopped,
        measures = ARRAY(SELECT had - less FROM unnest(t.measures, delta.measures) AS at(had, less)),
        faults = ARRAY(SELECT had - less FROM unnest(t.faults, delta.faults) AS at(had, less)),
        readings = ARRAY(SELECT had - less FROM unnest(t.readings, delta.readings) AS at(had, less))
      FROM found delta WHERE t.id = delta.tally_id)
    UPDATE person_tally p SET attempts = p.attempts - person.attempts, passes = p.passes - person.passes
    FROM found delta CROSS JOIN LATERAL ${PEOPLE}
    WHERE p.tally_id = delta.tally_id AND p.role = person.role AND p.soldier_id = person."soldierId"`
}
