import type { Plan, PlanAnswer, PlanBody, PlanProblem, PlanProgress } from '../../contract/plans/plans.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type {
  LevelResult,
  PlanProblem as StatedProblem,
  PlanAnswer as WorkedOutAnswer,
} from '../../domain/plans/problem.ts'

/** What a plan was asked for. */
export type PlanAsked = Pick<PlanBody, 'kind' | 'unitId' | 'from' | 'to'> & { readonly options: Plan['options'] }

export interface StoredPlan extends PlanAsked {
  readonly id: string
  readonly state: Exclude<Plan['state'], 'stale'>
  readonly progress: PlanProgress | null
  /** A server is at it, or was a moment ago. */
  readonly isBeating: boolean
  readonly failure: string | null
  readonly levels: readonly LevelResult[]
  readonly seconds: number
  readonly comparedEntry: string
  readonly comparedAt: Date | null
  readonly changed: readonly string[]
  readonly askedAt: Date
  readonly askedBy: string
  readonly askedById: string
  /** Pairs that were accepted and not undone. */
  readonly accepted: readonly string[]
}

/** A server that has not shown itself for so long is not at it any more. */
const SILENT = Prisma.sql`interval '20 seconds'`

const COLUMNS = Prisma.sql`
  p.id::text, p.kind, p.unit_id::text AS "unitId", p.from_day::text AS "from", p.to_day::text AS "to", p.options, p.state,
  p.progress, p.beat_at > now() - ${SILENT} AS "isBeating", p.failure, p.levels, p.seconds,
  p.compared_entry::text AS "comparedEntry", p.compared_at AS "comparedAt", p.changed, p.asked_at AS "askedAt",
  a.name AS "askedBy", a.id::text AS "askedById",
  ARRAY(SELECT b.pair FROM plan_booking b WHERE b.plan_id = p.id AND b.undone_at IS NULL
    UNION SELECT n.pair FROM plan_name n WHERE n.plan_id = p.id AND n.undone_at IS NULL ORDER BY 1) AS accepted
  FROM plan p JOIN account a ON a.id = p.account_id`

export async function insertPlan(
  tx: Transaction,
  { kind, unitId, from, to, options }: PlanAsked,
  { content, accountId, at }: { content: string; accountId: string; at: Date },
): Promise<string> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    INSERT INTO plan (kind, unit_id, from_day, to_day, options, content, account_id, asked_at, state, beat_at)
    VALUES (${kind}, ${unitId}::uuid, ${from}::date, ${to}::date, ${JSON.stringify(options)}::jsonb, ${content},
      ${accountId}::uuid, ${at}, 'waiting', now())
    RETURNING id::text`
  return rows[0]!.id
}

/** Removes plans that nobody accepted anything of, asked for before an instant; a new one is soon made. */
export async function deleteOldPlans(tx: Transaction, before: Date): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM plan p WHERE asked_at < ${before} AND state IN ('ready', 'stopped', 'failed')
      AND NOT EXISTS (SELECT FROM plan_booking b WHERE b.plan_id = p.id)
      AND NOT EXISTS (SELECT FROM plan_name n WHERE n.plan_id = p.id)`
}

/** Keeps others from asking for the same content until the transaction ends. */
export async function lockContent(tx: Transaction, content: string): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`plan ${content}`}, 0))`
}

export async function readPlan(tx: Transaction, id: string): Promise<StoredPlan | null> {
  const rows = await tx.$queryRaw<StoredPlan[]>`SELECT ${COLUMNS} WHERE p.id = ${id}::uuid`
  return rows[0] ?? null
}

/** The last plan asked for with this content. */
export async function readLastPlan(tx: Transaction, content: string): Promise<StoredPlan | null> {
  const rows = await tx.$queryRaw<StoredPlan[]>`
    SELECT ${COLUMNS} WHERE p.content = ${content} ORDER BY p.asked_at DESC, p.id DESC LIMIT 1`
  return rows[0] ?? null
}

/** One plan, locked until the transaction ends. */
export async function lockPlan(tx: Transaction, id: string): Promise<StoredPlan | null> {
  await tx.$executeRaw`SELECT FROM plan WHERE id = ${id}::uuid FOR UPDATE`
  return readPlan(tx, id)
}

export async function readProblem(tx: Transaction, id: string): Promise<PlanProblem | null> {
  const rows = await tx.$queryRaw<{ problem: PlanProblem | null }[]>`SELECT problem FROM plan WHERE id = ${id}::uuid`
  return rows[0]?.problem ?? null
}

/** What the kind of plan keeps beside an answer. */
interface Beside {
  readonly bestChange?: unknown
}

/** An answer to be stored. */
export type NewAnswer = WorkedOutAnswer & Beside

export async function readAnswer(tx: Transaction, id: string): Promise<(PlanAnswer & Beside) | null> {
  const rows = await tx.$queryRaw<
    { answer: (PlanAnswer & Beside) | null }[]
  >`SELECT answer FROM plan WHERE id = ${id}::uuid`
  return rows[0]?.answer ?? null
}

/** Shows that a server is at it, and how far. Out: whether somebody has asked to stop. */
export async function beatPlan(tx: Transaction, id: string, progress: PlanProgress | null): Promise<boolean> {
  const rows = await tx.$queryRaw<{ stopAsked: boolean }[]>`
    UPDATE plan SET beat_at = now(), progress = ${progress === null ? null : JSON.stringify(progress)}::jsonb
    WHERE id = ${id}::uuid RETURNING stop_asked AS "stopAsked"`
  return rows[0]?.stopAsked ?? false
}

/** Stores the problem of a plan that is to be solved now, and up to which entry of the record it holds. */
export async function storeProblem(
  tx: Transaction,
  id: string,
  problem: StatedProblem,
  { entry, at }: { entry: string; at: Date },
): Promise<void> {
  await tx.$executeRaw`
    UPDATE plan SET problem = ${JSON.stringify(problem)}::jsonb, state = 'solving', compared_entry = ${entry}::bigint,
      compared_at = ${at}, beat_at = now() WHERE id = ${id}::uuid`
}

export interface Solved {
  readonly state: 'ready' | 'stopped'
  readonly answer: NewAnswer
  readonly levels: readonly LevelResult[]
  readonly seconds: number
}

export async function storeAnswer(tx: Transaction, id: string, solved: Solved): Promise<void> {
  const { state, answer, levels, seconds } = solved
  await tx.$executeRaw`
    UPDATE plan SET state = ${state}, answer = ${JSON.stringify(answer)}::jsonb, levels = ${JSON.stringify(levels)}::jsonb,
      seconds = ${seconds}, progress = NULL WHERE id = ${id}::uuid`
}

export async function storeFailure(tx: Transaction, id: string, failure: string, seconds: number): Promise<void> {
  await tx.$executeRaw`
    UPDATE plan SET state = 'failed', failure = ${failure}, seconds = ${seconds}, progress = NULL
    WHERE id = ${id}::uuid AND state IN ('waiting', 'solving')`
}

export async function askToStop(tx: Transaction, id: string): Promise<void> {
  await tx.$executeRaw`UPDATE plan SET stop_asked = true WHERE id = ${id}::uuid AND state IN ('waiting', 'solving')`
}

/** Keeps what has changed since a plan was made, and up to which entry of the record that is known. */
export async function storeCompared(
  tx: Transaction,
  id: string,
  { entry, at, changed }: { entry: string; at: Date; changed: readonly string[] },
): Promise<void> {
  await tx.$executeRaw`
    UPDATE plan SET compared_entry = ${entry}::bigint, compared_at = ${at}, changed = ${JSON.stringify(changed)}::jsonb
    WHERE id = ${id}::uuid`
}

/** The last entry of the record: nothing has changed while it is the same. */
export async function readLastEntry(tx: Transaction): Promise<string> {
  const rows = await tx.$queryRaw<{ entry: string }[]>`SELECT coalesce(max(seq), 0)::text AS entry FROM record_entry`
  return rows[0]!.entry
}
