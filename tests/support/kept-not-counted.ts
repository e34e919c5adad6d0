/** SQL of what is kept of sheets in no figure, with what is not in the tallies yet spread over the units above and the grains. */
export const KEPT_NOT_COUNTED = `
  SELECT unit_id, standard_version_id, grain, start, arm, why, sum(sheets)::int AS sheets
  FROM (
    SELECT * FROM not_counted_tally
    UNION ALL
    SELECT above.id, c.standard_version_id, each.grain, each.start, c.arm, c.why, c.sheets
    FROM not_counted_change c LEFT JOIN unit u ON u.id = c.unit_id
    CROSS JOIN LATERAL unnest(COALESCE(u.lineage, ARRAY[c.unit_id])) AS above(id)
    CROSS JOIN LATERAL (VALUES ('day', c.day), ('month', date_trunc('month', c.day)::date),
      ('year', date_trunc('year', c.day)::date)) AS each(grain, start)) kept
  GROUP BY 1, 2, 3, 4, 5, 6 HAVING sum(sheets) <> 0
  ORDER BY 1, 2, 3, 4, 5, 6`

/** Counts all sheets anew; what is kept is the same before and after. */
export const COUNT_SHEETS_ANEW = 'SELECT count_not_counted()'
