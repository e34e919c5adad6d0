import type { Contribution } from '../../../../server/domain/tallies/contribution.ts'
import { tallyKeys } from './tally-keys.ts'

/** Counts one attempt in its tallies, which are there; in the order of their keys, so that no two writers block each other. */
export const countStatement = `
WITH place AS MATERIALIZED (
  SELECT t.id FROM unit u CROSS JOIN LATERAL unnest(u.lineage) AS above(unit_id)
  CROSS JOIN unnest($2::text[], $3::date[]) AS span(grain, start)
  CROSS JOIN LATERAL (SELECT id FROM tally WHERE unit_id = above.unit_id AND standard_id = $4 AND grain = span.grain
    AND start = span.start AND arm = $5 AND kind = $6 LIMIT 1) t
  WHERE u.id = $1),
measures AS (
  INSERT INTO measure_tally AS t (tally_id, measure, major, tested, no_go, trials, incorrect)
  SELECT place.id, m.* FROM place CROSS JOIN unnest($7::text[], $8::boolean[], $9::int[], $10::int[], $11::int[], $12::int[]) AS m(measure, major, tested, no_go, trials, incorrect)
  ORDER BY 1, 2, 3
  ON CONFLICT (tally_id, measure, major) DO UPDATE SET tested = t.tested + excluded.tested, no_go = t.no_go + excluded.no_go,
    trials = t.trials + excluded.trials, incorrect = t.incorrect + excluded.incorrect),
faults AS (
  INSERT INTO fault_tally AS t (tally_id, measure, major, fault, count)
  SELECT place.id, f.* FROM place CROSS JOIN unnest($13::text[], $14::boolean[], $15::text[], $16::int[]) AS f(measure, major, fault, count)
  ORDER BY 1, 2, 3, 4
  ON CONFLICT (tally_id, measure, major, fault) DO UPDATE SET count = t.count + excluded.count)
INSERT INTO sponsor_tally AS t (tally_id, sponsor_id, attempts, passes)
SELECT id, $17::uuid, 1, $18::int FROM place WHERE $17::uuid IS NOT NULL ORDER BY 1
ON CONFLICT (tally_id, sponsor_id) DO UPDATE SET attempts = t.attempts + 1, passes = t.passes + excluded.passes`

export function countValues({ measures, faults, ...one }: Contribution): unknown[] {
  const keys = tallyKeys(one.day)
  return [
    one.unitId,
    keys.map(({ grain }) => grain),
    keys.map(({ start }) => start),
    one.standardId,
    one.arm ?? '',
    one.kind,
    measures.map(({ measure }) => measure),
    measures.map(({ major }) => major),
    measures.map(({ tested }) => tested),
    measures.map(({ noGo }) => noGo),
    measures.map(({ trials }) => trials),
    measures.map(({ incorrect }) => incorrect),
    faults.map(({ measure }) => measure),
    faults.map(({ major }) => major),
    faults.map(({ fault }) => fault),
    faults.map(({ count }) => count),
    one.sponsorId,
    one.passed ? 1 : 0,
  ]
}
