import type pg from 'pg'
import { z } from 'zod'
import { coverPeriod } from '../../../../server/domain/tallies/cover-period.ts'
import type { HandWritten } from './hand-written.ts'

const Count = z.int()
const Sums = z.object({ attempts: Count, passes: Count, stopped: Count, recorded: Count, counts: z.array(Count) })

/** Every count behind the product's answer: by place in the tallies, of the unit and of the whole record. */
export const MeasureCounts = z.object({
  own: Sums,
  whole: Sums,
  notCounted: z.object({ held: Count, rejected: Count, void: Count, practice: Count, secondGrader: Count }),
})

export type MeasureCounts = z.infer<typeof MeasureCounts>

/** Rows of tallies, each found by the index; adding them up is quicker outside of PostgreSQL. */
const TALLIES = `
SELECT units.part, t.attempts, t.passes, t.stopped, t.recorded, t.measures::text AS measures, t.faults::text AS faults
FROM (SELECT $1::uuid AS id, 'own' AS part UNION ALL SELECT id, 'whole' FROM unit WHERE parent_id IS NULL) units
CROSS JOIN standard_version v CROSS JOIN unnest($2::text[], $3::date[], $4::date[]) AS span(grain, first, last)
CROSS JOIN LATERAL (SELECT * FROM tally t WHERE t.unit_id = units.id AND t.standard_version_id = v.id
  AND t.grain = span.grain AND t.start BETWEEN span.first AND span.last OFFSET 0) t`

const NOT_COUNTED = `
SELECT json_build_object('held', COALESCE(sum(sheets) FILTER (WHERE why = 'held'), 0),
  'rejected', COALESCE(sum(sheets) FILTER (WHERE why = 'rejected'), 0), 'void', COALESCE(sum(sheets) FILTER (WHERE why = 'void'), 0),
  'practice', COALESCE(sum(sheets) FILTER (WHERE why = 'practice'), 0),
  'secondGrader', COALESCE(sum(sheets) FILTER (WHERE why = 'second'), 0)) AS counts
FROM (SELECT t.why, t.sheets FROM not_counted_tally t JOIN unnest($2::text[], $3::date[], $4::date[]) AS r(grain, first, last)
    ON t.unit_id = $1 AND t.grain = r.grain AND t.start BETWEEN r.first AND r.last
  UNION ALL
  SELECT c.why, c.sheets FROM not_counted_change c
    JOIN unit u ON u.id = c.unit_id AND $1 = ANY(u.lineage)
    JOIN unnest($2::text[], $3::date[], $4::date[]) AS r(grain, first, last)
    ON date_trunc(r.grain, c.day) BETWEEN r.first AND r.last) left_out`

/** Which measures of a unit fail, where there is one version of one standard: the counts, without the statistics. */
export const failingMeasures: HandWritten = {
  url: '/api/findings/measures',
  async answer(pool, { unitId, from = null, to = null }) {
    const ranges = coverPeriod(from, to)
    const spans = [ranges.map(({ grain }) => grain), ranges.map(({ first }) => first), ranges.map(({ last }) => last)]
    const [tallies, notCounted] = await Promise.all([
      pool.query<TallyRow>({ name: 'tallies', text: TALLIES, values: [unitId, ...spans] }),
      pool.query({ name: 'not-counted', text: NOT_COUNTED, values: [unitId, ...spans] }),
    ])
    const of = (part: TallyRow['part']) => sumOf(tallies.rows.filter((row) => row.part === part))
    return JSON.stringify({ own: of('own'), whole: of('whole'), notCounted: notCounted.rows[0].counts })
  },
}

interface TallyRow extends pg.QueryResultRow {
  readonly part: 'own' | 'whole'
  readonly attempts: number
  readonly passes: number
  readonly stopped: number
  readonly recorded: number
  readonly measures: string
  readonly faults: string
}

function sumOf(rows: readonly TallyRow[]): MeasureCounts['own'] {
  const sum = { attempts: 0, passes: 0, stopped: 0, recorded: 0, counts: [] as number[] }
  for (const { measures, faults, ...row } of rows) {
    sum.attempts += row.attempts
    sum.passes += row.passes
    sum.stopped += row.stopped
    sum.recorded += row.recorded
    const counts: number[] = JSON.parse(`[${measures.slice(1, -1)},${faults.slice(1, -1)}]`)
    if (sum.counts.length === 0) sum.counts = counts
    else for (let place = 0; place < counts.length; place++) sum.counts[place]! += counts[place]!
  }
  return sum
}
