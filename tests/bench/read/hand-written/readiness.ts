import type { HandWritten } from './hand-written.ts'

/** The day it is at a unit, by the nearest time zone at or above it. */
const ASKED = `asked AS MATERIALIZED (
  SELECT (now() AT TIME ZONE (SELECT above.time_zone FROM unnest(u.lineage) WITH ORDINALITY AS line(id, height)
    JOIN unit above ON above.id = line.id WHERE above.time_zone IS NOT NULL ORDER BY height LIMIT 1))::date AS day
  FROM unit u WHERE u.id = $1)`

const READINESS = `WITH ${ASKED},
certs AS MATERIALIZED (
  SELECT c.id, c.code, c.arms, t.required_grades, t.required_units FROM certification c
  CROSS JOIN LATERAL (SELECT required_grades, required_units FROM certification_terms
    WHERE certification_id = c.id AND effective_from <= (SELECT day FROM asked) ORDER BY effective_from DESC LIMIT 1) t),
shown AS MATERIALIZED (
  SELECT p.soldier_id, p.unit_id, p.grade, c.code,
    COALESCE(st.status, 'no test yet') AS status, st.awarded_on, st.valid_through,
    COALESCE(st.suspended, false) AS suspended, COALESCE(st.toward, '[]') AS toward, COALESCE(st.retest_open, '{}') AS retest_open,
    fit.fits AND (c.required_grades IS NULL OR c.required_grades ? p.grade) AND (c.required_units IS NULL OR EXISTS (
      SELECT FROM unit u WHERE u.id = p.unit_id
        AND u.lineage && ARRAY(SELECT jsonb_array_elements_text(c.required_units)::uuid))) AS required
  FROM soldier_period p CROSS JOIN certs c
  CROSS JOIN LATERAL (SELECT cardinality(c.arms) = 0 OR c.arms && p.arms AS fits) fit
  LEFT JOIN LATERAL (SELECT * FROM standing x WHERE x.soldier_id = p.soldier_id AND x.certification_id = c.id
    AND x.from_day <= (SELECT day FROM asked) ORDER BY x.from_day DESC LIMIT 1) st
    ON st.through_day IS NULL OR st.through_day >= (SELECT day FROM asked)
  WHERE p.unit_id = ANY(ARRAY(SELECT id FROM unit WHERE lineage @> ARRAY[$1::uuid]))
    AND daterange(p.from_day, p.through_day, '[]') @> (SELECT day FROM asked)
    AND (fit.fits OR st.status IN ('certified', 'suspended')))
SELECT json_build_object(
  'asOf', (SELECT day FROM asked),
  'items', (SELECT COALESCE(json_agg(page), '[]') FROM (
    SELECT soldier_id AS "soldierId", s.roster_number AS "rosterNumber", s.family_name || ', ' || s.given_name AS name,
      grade, unit_id AS "unitId", required, code AS certification, status, awarded_on AS "awardedOn",
      valid_through AS "validThrough", suspended, toward, retest_open AS "retestOpen"
    FROM shown JOIN soldier s ON s.id = shown.soldier_id ORDER BY s.roster_number, code LIMIT $2::int) page),
  'counts', (SELECT COALESCE(json_agg(sums), '[]') FROM (
    SELECT unit_id AS "unitId", code AS certification, status, required, count(*) AS count FROM shown
    GROUP BY unit_id, code, status, required ORDER BY unit_id, code, status, required) sums),
  'next', null)::text AS answer`

/** Who of a unit can stand today, the first page, and the counts of all. */
export const readiness: HandWritten = {
  url: '/api/readiness',
  async answer(pool, { unitId, limit = '100' }) {
    return (await pool.query({ name: 'readiness', text: READINESS, values: [unitId, limit] })).rows[0].answer
  },
}

const STATUS = `WITH asked AS MATERIALIZED (
  SELECT (now() AT TIME ZONE time_zone)::date AS day FROM unit WHERE parent_id IS NULL ORDER BY name, id LIMIT 1)
SELECT json_build_object('items', COALESCE(json_agg(json_build_object('certification', c.code,
  'status', COALESCE(st.status, 'no test yet'), 'awardedOn', st.awarded_on, 'validThrough', st.valid_through,
  'suspended', COALESCE(st.suspended, false), 'toward', COALESCE(st.toward, '[]'),
  'retestOpen', COALESCE(st.retest_open, '{}')) ORDER BY c.code), '[]'), 'next', null)::text AS answer
FROM soldier_period p JOIN certification c ON cardinality(c.arms) = 0 OR c.arms && p.arms
LEFT JOIN LATERAL (SELECT * FROM standing x WHERE x.soldier_id = p.soldier_id AND x.certification_id = c.id
  AND x.from_day <= (SELECT day FROM asked) ORDER BY x.from_day DESC LIMIT 1) st
  ON st.through_day IS NULL OR st.through_day >= (SELECT day FROM asked)
WHERE p.soldier_id = $1 AND daterange(p.from_day, p.through_day, '[]') @> (SELECT day FROM asked)`

/** The status of one soldier today in each certification that fits them. */
export const status: HandWritten = {
  url: '/api/soldiers/:id/status',
  async answer(pool, _query, { id }) {
    return (await pool.query({ name: 'status', text: STATUS, values: [id] })).rows[0].answer
  },
}
