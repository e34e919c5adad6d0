import { coverPeriod } from '../../../../server/domain/tallies/cover-period.ts'
import type { HandWritten } from './hand-written.ts'

/** Which measures of a unit fail, over whole years, months and days. */
export const failingMeasures: HandWritten = {
  url: '/api/findings/measures',
  name: 'failing-measures',
  values: ({ unitId, from = null, to = null }) => {
    const ranges = coverPeriod(from, to)
    return [unitId, ranges.map(({ grain }) => grain), ranges.map(({ first }) => first), ranges.map(({ last }) => last)]
  },
  text: `WITH chosen AS MATERIALIZED (
  SELECT t.id, t.standard_id FROM unnest($2::text[], $3::date[], $4::date[]) AS span(grain, first, last)
  CROSS JOIN standard s
  JOIN tally t ON t.unit_id = $1 AND t.standard_id = s.id AND t.grain = span.grain AND t.start BETWEEN span.first AND span.last),
faults AS (
  SELECT standard_id, measure, major, json_agg(json_build_object('code', fault, 'count', count) ORDER BY fault) AS faults
  FROM (SELECT c.standard_id, f.measure, f.major, f.fault, sum(f.count) AS count
    FROM chosen c JOIN fault_tally f ON f.tally_id = c.id GROUP BY 1, 2, 3, 4 HAVING sum(f.count) > 0) counted
  GROUP BY 1, 2, 3),
measures AS (
  SELECT c.standard_id, t.measure, t.major, sum(t.tested) AS tested, sum(t.no_go) AS no_go, sum(t.trials) AS trials,
    sum(t.incorrect) AS incorrect
  FROM chosen c JOIN measure_tally t ON t.tally_id = c.id GROUP BY 1, 2, 3 HAVING sum(t.trials) > 0)
SELECT json_build_object(
  'items', COALESCE(json_agg(json_build_object('standard', s.code, 'measure', measure, 'tested', tested, 'noGo', no_go,
      'trials', trials, 'incorrect', incorrect, 'faults', COALESCE(faults, '[]')) ORDER BY s.code, measure)
    FILTER (WHERE NOT major), '[]'),
  'next', null,
  'majors', COALESCE(json_agg(json_build_object('standard', s.code, 'major', measure, 'judged', tested, 'noGo', no_go,
      'faults', COALESCE(faults, '[]')) ORDER BY s.code, measure) FILTER (WHERE major), '[]'))::text AS answer
FROM measures LEFT JOIN faults USING (standard_id, measure, major) JOIN standard s ON s.id = standard_id`,
}
