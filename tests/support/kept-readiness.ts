/** SQL of what is kept of readiness, with what is not in the tallies yet spread over the units above and both grains. */
export const KEPT_READINESS = `
  SELECT unit_id, certification_id, grain, start, sum(required)::int AS required, sum(certified)::int AS certified,
    sum(open)::int AS open, sum(past_due)::int AS past_due, sum(needs_review)::int AS needs_review
  FROM (
    SELECT * FROM readiness_tally
    UNION ALL
    SELECT above.id, c.certification_id, each.grain, each.start, c.required, c.certified, c.open, c.past_due, c.needs_review
    FROM readiness_change c JOIN unit u ON u.id = c.unit_id CROSS JOIN LATERAL unnest(u.lineage) AS above(id)
    CROSS JOIN LATERAL (VALUES ('day', c.day), ('month', date_trunc('month', c.day)::date)) AS each(grain, start)) kept
  GROUP BY 1, 2, 3, 4
  HAVING (sum(required), sum(certified), sum(open), sum(past_due), sum(needs_review)) <> (0, 0, 0, 0, 0)
  ORDER BY 1, 2, 3, 4`

/** Counts everybody anew; what is kept is the same before and after. */
export const COUNT_ANEW = 'SELECT count_readiness(ARRAY(SELECT id FROM certification))'
