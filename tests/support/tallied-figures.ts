/** A question for every figure that is kept, as text by what it is about. */
export const TALLIED_FIGURES = `
  SELECT concat(to_jsonb(t) - 'id', (SELECT jsonb_agg(to_jsonb(p) - 'tally_id' ORDER BY p.role, p.soldier_id)
    FROM person_tally p WHERE p.tally_id = t.id AND p.attempts > 0)) AS figure
  FROM tally t WHERE attempts > 0
  UNION ALL SELECT concat_ws(' ', id, tallied_kind, tallied_unit_id) FROM sheet
  ORDER BY 1`

/** Statements that take all figures away, so that they have to be counted anew. */
export const UNCOUNT = [
  'UPDATE sheet SET tallied_kind = NULL, tallied_unit_id = NULL',
  'TRUNCATE person_tally, tally',
] as const
