import { z } from 'zod'
import { coverPeriod } from '../../../../server/domain/tallies/cover-period.ts'
import type { HandWritten } from './hand-written.ts'

const Count = z.int()

/** Every count behind the product's answer, by place in the tallies: own and of the whole record, and what is left out. */
export const MeasureCounts = z.object({
  sums: z.array(z.object({ versionId: z.uuid(), own: z.array(Count).nullable(), whole: z.array(Count).nullable() })),
  totals: z.object({ attempts: Count, passes: Count, stopped: Count, recorded: Count }),
  notCounted: z.object({ held: Count, rejected: Count, void: Count, practice: Count, secondGrader: Count }),
})

export type MeasureCounts = z.infer<typeof MeasureCounts>

/** Which measures of a unit fail, over whole years, months and days: the counts, without the statistics. */
export const failingMeasures: HandWritten = {
  url: '/api/findings/measures',
  name: 'failing-measures',
  values: ({ unitId, from = null, to = null }) => {
    const ranges = coverPeriod(from, to)
    const spans = [ranges.map(({ grain }) => grain), ranges.map(({ first }) => first), ranges.map(({ last }) => last)]
    return [unitId, ...spans, from, to]
  },
  text: `WITH units AS MATERIALIZED (
  SELECT $1::uuid AS id, 'own' AS part UNION ALL SELECT id, 'whole' FROM unit WHERE parent_id IS NULL),
chosen AS MATERIALIZED (
  SELECT units.part, t.* FROM units CROSS JOIN standard_version v
  CROSS JOIN unnest($2::text[], $3::date[], $4::date[]) AS span(grain, first, last)
  JOIN tally t ON t.unit_id = units.id AND t.standard_version_id = v.id AND t.grain = span.grain
    AND t.start BETWEEN span.first AND span.last),
added AS (
  SELECT standard_version_id, place, sum(n) FILTER (WHERE part = 'own') AS own, sum(n) FILTER (WHERE part = 'whole') AS whole
  FROM chosen CROSS JOIN LATERAL unnest(measures || faults) WITH ORDINALITY AS at(n, place) GROUP BY 1, 2)
SELECT json_build_object(
  'sums', (SELECT COALESCE(json_agg(json_build_object('versionId', standard_version_id, 'own', own, 'whole', whole)), '[]')
    FROM (SELECT standard_version_id, array_agg(own ORDER BY place) AS own, array_agg(whole ORDER BY place) AS whole
      FROM added GROUP BY 1) sums),
  'totals', (SELECT json_build_object('attempts', COALESCE(sum(attempts), 0), 'passes', COALESCE(sum(passes), 0),
      'stopped', COALESCE(sum(stopped), 0), 'recorded', COALESCE(sum(recorded), 0)) FROM chosen WHERE part = 'own'),
  'notCounted', (SELECT json_build_object('held', count(*) FILTER (WHERE why = 'held'),
      'rejected', count(*) FILTER (WHERE why = 'rejected'), 'void', count(*) FILTER (WHERE why = 'void'),
      'practice', count(*) FILTER (WHERE why = 'practice'), 'secondGrader', count(*) FILTER (WHERE why = 'second'))
    FROM (SELECT CASE WHEN s.purpose = 'practice' THEN 'practice' WHEN s.state <> 'counted' THEN s.state
        WHEN s.outcome = 'VOID' THEN 'void' WHEN s.second_of IS NOT NULL THEN 'second' END AS why
      FROM sheet s JOIN soldier_period p ON p.soldier_id = s.candidate_id
        AND daterange(p.from_day, p.through_day, '[]') @> s.day
      WHERE s.tallied_kind IS NULL AND s.day BETWEEN COALESCE($5::date, '-infinity') AND COALESCE($6::date, 'infinity')
        AND p.unit_id = ANY(ARRAY(SELECT id FROM unit WHERE lineage @> ARRAY[$1::uuid]))) left_out))::text AS answer`,
}
