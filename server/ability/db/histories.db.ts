import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { CandidateHistory, CountedTest } from '../../domain/ability/candidate-history.ts'

interface HistoryRow {
  readonly candidateId: string
  readonly standardId: string
  readonly tests:
    | readonly (Omit<CountedTest, 'correct' | 'tried'> & { readonly counts: readonly number[] | null })[]
    | null
  readonly others: CandidateHistory['others'] | null
}

const MOST_PER_QUESTION = 2_000

/** The histories in a standard of everybody who was tested in it, by candidate. */
export async function readHistories(tx: Transaction, standardId: string): Promise<CandidateHistory[]> {
  const histories: CandidateHistory[] = []
  for (let after: string | null = null; ; ) {
    const rows: HistoryRow[] = await historiesOf(
      tx,
      Prisma.sql`SELECT DISTINCT candidate_id AS id, standard_id FROM sheet WHERE standard_id = ${standardId}::uuid
        AND ${after === null ? Prisma.sql`true` : Prisma.sql`candidate_id > ${after}::uuid`}
        ORDER BY 1 LIMIT ${MOST_PER_QUESTION}`,
    )
    histories.push(...rows.map(toHistory))
    if (rows.length < MOST_PER_QUESTION) return histories
    after = rows.at(-1)!.candidateId
  }
}

/** Whose past in which standard. */
export interface HistoryAsked {
  readonly candidateId: string
  readonly standardId: string
}

/** The histories asked for, in one question and in no order; also of those who were never tested. */
export async function readHistoriesOf(
  tx: Transaction,
  asked: readonly HistoryAsked[],
): Promise<(CandidateHistory & HistoryAsked)[]> {
  const rows = await historiesOf(
    tx,
    Prisma.sql`SELECT DISTINCT id, standard_id FROM unnest(${asked.map(({ candidateId }) => candidateId)}::uuid[],
      ${asked.map(({ standardId }) => standardId)}::uuid[]) AS asked(id, standard_id)`,
  )
  return rows.map((row) => ({ ...toHistory(row), standardId: row.standardId }))
}

/**
 * Counted tests by the first grader, of the revision in force, and the awards and withdrawals beside them.
 * In: SQL of candidates and standards, as `id` and `standard_id`.
 */
function historiesOf(tx: Transaction, people: Prisma.Sql): Promise<HistoryRow[]> {
  const counts = Prisma.sql`(SELECT json_agg((m->>'correct')::int * 1000 + (m->>'incorrect')::int ORDER BY place)
    FROM sheet_revision r, jsonb_array_elements(r.score->'minors') WITH ORDINALITY AS minor(m, place)
    WHERE r.sheet_id = s.id AND r.number = s.revision)`
  return tx.$queryRaw<HistoryRow[]>`
    SELECT person.id::text AS "candidateId", person.standard_id::text AS "standardId", tests.list AS tests,
      others.list AS others
    FROM (${people}) person
    CROSS JOIN LATERAL (SELECT json_agg(json_build_object('id', s.id, 'graderId', s.grader_id, 'day', s.day,
        'version', v.version, 'passed', s.outcome = 'GO', 'marks', s.marks, 'counts', ${counts})
        ORDER BY s.finished_at, s.id) AS list
      FROM sheet s JOIN standard_version v ON v.id = s.standard_version_id
      WHERE s.candidate_id = person.id AND s.standard_id = person.standard_id AND s.state = 'counted'
        AND s.purpose = 'test' AND s.second_of IS NULL AND s.ending <> 'void') tests
    CROSS JOIN LATERAL (SELECT json_agg(json_build_object('day', day, 'kind', kind) ORDER BY day, kind) AS list
      FROM (SELECT awarded_on AS day, 'award' AS kind, certification_id FROM carried_award WHERE soldier_id = person.id
        UNION ALL SELECT on_day, 'withdrawal', certification_id FROM withdrawal WHERE soldier_id = person.id) event
      WHERE certification_id IN (SELECT certification_id FROM certification_standard
        WHERE standard_id = person.standard_id)) others
    ORDER BY 1`
}

function toHistory({ candidateId, tests, others }: HistoryRow): CandidateHistory {
  return {
    candidateId,
    others: others ?? [],
    tests: (tests ?? []).map(({ counts, marks, ...test }) => {
      const known = marks === '' ? [] : (counts ?? [])
      return {
        ...test,
        marks,
        correct: known.map((both) => Math.floor(both / 1000)),
        tried: known.map((both) => Math.floor(both / 1000) + (both % 1000)),
      }
    }),
  }
}

/** All counted tests of a standard up to a day, and how many were passed. */
export async function countTests(
  tx: Transaction,
  standardId: string,
  day: string,
): Promise<{ tests: number; passes: number }> {
  const rows = await tx.$queryRaw<{ tests: number; passes: number }[]>`
    SELECT count(*)::int AS tests, (count(*) FILTER (WHERE outcome = 'GO'))::int AS passes FROM sheet
    WHERE standard_id = ${standardId}::uuid AND state = 'counted' AND purpose = 'test' AND second_of IS NULL
      AND ending <> 'void' AND day <= ${day}::date`
  return rows[0]!
}

/** Goes up with everything that is entered, and how many counted sheets there are. */
export async function readRecordState(tx: Transaction): Promise<{ entry: string; sheets: number }> {
  const rows = await tx.$queryRaw<{ entry: string; sheets: number }[]>`
    SELECT coalesce((SELECT max(seq) FROM record_entry), 0)::text AS entry,
      (SELECT count(*) FROM sheet WHERE state = 'counted')::int AS sheets`
  return rows[0]!
}
