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
  SELECT p.soldier_id, p.unit_id, p.grade, c.id AS certification_id, c.code,
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
    AND (fit.fits OR st.status IN ('certified', 'suspended'))),
page AS MATERIALIZED (
  SELECT shown.*, s.roster_number, s.family_name || ', ' || s.given_name AS name
  FROM shown JOIN soldier s ON s.id = shown.soldier_id ORDER BY s.roster_number, code LIMIT $2::int),
sums AS MATERIALIZED (
  SELECT unit_id, code, status, required, count(*)::int AS count FROM shown GROUP BY 1, 2, 3, 4)
SELECT json_build_object(
  'asOf', (SELECT day FROM asked),
  'items', (SELECT COALESCE(json_agg(listed ORDER BY "rosterNumber", certification), '[]') FROM (
    SELECT soldier_id AS "soldierId", roster_number AS "rosterNumber", name, grade, unit_id AS "unitId", required,
      code AS certification, status, awarded_on AS "awardedOn", valid_through AS "validThrough", suspended, toward,
      retest_open AS "retestOpen",
      (SELECT min(x.from_day) FROM standing x WHERE x.soldier_id = page.soldier_id
        AND x.certification_id = page.certification_id AND x.from_day <= (SELECT day FROM asked)
        AND NOT EXISTS (SELECT FROM standing y WHERE y.soldier_id = x.soldier_id AND y.certification_id = x.certification_id
          AND y.from_day BETWEEN x.from_day AND (SELECT day FROM asked) AND y.status <> page.status)) AS since,
      CASE WHEN suspended THEN (SELECT json_build_object('from', x.from_day, 'reason', x.reason) FROM suspension x
        WHERE x.soldier_id = page.soldier_id AND x.certification_id = page.certification_id
          AND x.from_day <= (SELECT day FROM asked) AND (x.lift_day IS NULL OR x.lift_day > (SELECT day FROM asked))
        ORDER BY x.from_day, x.id LIMIT 1) END AS suspension,
      (SELECT COALESCE(json_agg(json_build_object('standard', r.standard, 'on', r.on_day, 'earliest', r.earliest,
          'due', COALESCE(moved.due, r.due)) ORDER BY COALESCE(moved.due, r.due), r.standard), '[]')
        FROM retest_span r LEFT JOIN LATERAL (SELECT due FROM due_move m WHERE m.soldier_id = r.soldier_id
          AND m.certification_id = r.certification_id AND m.standard = r.standard AND m.on_day = r.on_day
          ORDER BY entry DESC LIMIT 1) moved ON true
        WHERE r.soldier_id = page.soldier_id AND r.certification_id = page.certification_id
          AND r.from_day <= (SELECT day FROM asked) AND (r.through_day IS NULL OR r.through_day >= (SELECT day FROM asked))
      ) AS retests,
      (SELECT COALESCE(json_agg(json_build_object('standard', std.code, 'on', td.on_day, 'startsAt', b.starts_at)
          ORDER BY td.on_day, b.starts_at, std.code), '[]')
        FROM booking b JOIN test_day td ON td.id = b.test_day_id JOIN standard std ON std.id = b.standard_id
        JOIN certification_standard cs ON cs.standard_id = b.standard_id AND cs.certification_id = page.certification_id
        WHERE b.candidate_id = page.soldier_id AND b.state IN ('booked', 'checked in') AND td.called_off_at IS NULL
          AND td.on_day >= (SELECT day FROM asked)) AS booked
    FROM page) listed),
  'totals', (SELECT COALESCE(json_agg(json_build_object('certification', code, 'status', status, 'required', required,
      'count', count) ORDER BY code, status, required), '[]')
    FROM (SELECT code, status, required, sum(count) AS count FROM sums GROUP BY 1, 2, 3) totals),
  'counts', (SELECT COALESCE(json_agg(json_build_object('unitId', unit_id, 'certification', code, 'status', status,
      'required', required, 'count', count) ORDER BY company.place, company.name, u.place, u.name,
        code, status, required), '[]')
    FROM sums JOIN unit u ON u.id = sums.unit_id LEFT JOIN unit company ON company.id = u.parent_id),
  'nextCounts', null,
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
