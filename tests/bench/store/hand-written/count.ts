import type { Contribution } from '../../../../server/domain/tallies/contribution.ts'

/**
 * Counts one attempt in its year, month and day of every unit at and above the candidate's, in the order of the tallies'
 * key, so that no two writers wait for each other in a circle.
 */
export const countStatement = `
WITH counted AS (
  INSERT INTO tally AS t (unit_id, standard_version_id, grain, start, arm, kind, attempts, passes, recorded, stopped,
    measures, faults, readings)
  SELECT above.unit_id, $2::uuid, span.grain, span.start, $5::text, $6::text, 1, $7::int, $8::int, $9::int, $10::int[], $11::int[], $12::int[]
  FROM unit u CROSS JOIN LATERAL unnest(u.lineage) AS above(unit_id) CROSS JOIN unnest($3::text[], $4::date[]) AS span(grain, start)
  WHERE u.id = $1 ORDER BY 1, 3, 4
  ON CONFLICT (unit_id, standard_version_id, grain, start, arm, kind) DO UPDATE SET attempts = t.attempts + 1,
    passes = t.passes + excluded.passes, recorded = t.recorded + excluded.recorded, stopped = t.stopped + excluded.stopped,
    measures = ARRAY(SELECT had + more FROM unnest(t.measures, excluded.measures) AS at(had, more)),
    faults = ARRAY(SELECT had + more FROM unnest(t.faults, excluded.faults) AS at(had, more)),
    readings = ARRAY(SELECT had + more FROM unnest(t.readings, excluded.readings) AS at(had, more))
  RETURNING id)
INSERT INTO person_tally AS p (tally_id, role, soldier_id, attempts, passes)
SELECT id, who.role, who.soldier_id, 1, $7::int FROM counted CROSS JOIN unnest($13::text[], $14::uuid[]) AS who(role, soldier_id)
ON CONFLICT (tally_id, role, soldier_id) DO UPDATE SET attempts = p.attempts + 1, passes = p.passes + excluded.passes`

export function countValues(one: Contribution): unknown[] {
  const people = [['grader', one.graderId], ...(one.sponsorId === null ? [] : [['sponsor', one.sponsorId]])]
  return [
    one.unitId,
    one.versionId,
    ['year', 'month', 'day'],
    [`${one.day.slice(0, 4)}-01-01`, `${one.day.slice(0, 7)}-01`, one.day],
    one.arm ?? '',
    one.kind,
    one.passed ? 1 : 0,
    one.ending === 'recorded' ? 1 : 0,
    one.ending === 'stopped' ? 1 : 0,
    one.counts.measures,
    one.counts.faults,
    one.counts.readings,
    people.map(([role]) => role),
    people.map(([, id]) => id),
  ]
}
