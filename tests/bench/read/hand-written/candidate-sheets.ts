import type { HandWritten } from './hand-written.ts'

const SHEETS = `WITH latest AS MATERIALIZED (
  SELECT s.*, row_number() OVER (ORDER BY s.finished_at DESC, s.id DESC) AS place
  FROM (SELECT * FROM sheet WHERE candidate_id = $1 ORDER BY finished_at DESC, id DESC LIMIT $2::int + 1) s)
SELECT json_build_object(
  'items', COALESCE((SELECT json_agg(json_build_object('id', s.id, 'state', s.state, 'day', s.day,
      'receivedAt', to_char(s.received_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), 'revision', s.revision,
      'flags', CASE WHEN s.state = 'counted' THEN s.tolerated ELSE '{}' END
        || CASE WHEN s.is_overlapping THEN ARRAY['overlap'] ELSE '{}' END,
      'result', r.score || jsonb_build_object('attempts', s.attempts), 'violations', s.violations, 'body', r.body,
      'people', (SELECT json_object_agg(p.id, concat_ws(' ', (SELECT grade FROM soldier_period WHERE soldier_id = p.id
          ORDER BY from_day > s.day, abs(from_day - s.day) LIMIT 1), p.family_name) || ', ' || p.given_name)
        FROM soldier p WHERE p.id IN (s.candidate_id, s.grader_id, s.sponsor_id))) ORDER BY s.place)
    FROM latest s JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision WHERE s.place <= $2::int), '[]'),
  'next', (SELECT rtrim(translate(encode(convert_to(
        format('[%s,"%s"]', (extract(epoch FROM finished_at) * 1000)::bigint, id), 'UTF8'), 'base64'), E'+/\\n', '-_'), '=')
    FROM latest WHERE place = $2::int AND EXISTS (SELECT FROM latest WHERE place > $2::int)))::text AS answer`

/** The latest sheets of a candidate, with the cursor to the next page. */
export const candidateSheets: HandWritten = {
  url: '/api/sheets',
  async answer(pool, { soldierId, limit = '100' }) {
    return (await pool.query({ name: 'sheets', text: SHEETS, values: [soldierId, limit] })).rows[0].answer
  },
}
