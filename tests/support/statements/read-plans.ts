import pg from 'pg'
import type { HeardStatement } from './hear-statements.ts'

/** A part of a plan as PostgreSQL's EXPLAIN says it in JSON. */
interface PlanNode {
  readonly 'Node Type': string
  readonly 'Relation Name'?: string
  readonly 'Index Name'?: string
  readonly 'Index Cond'?: string
  readonly Filter?: string
  readonly Plans?: readonly PlanNode[]
}

export interface Planner {
  /** The long tables that a statement reads from end to end, with any of the values it was sent with. */
  wholeReads(statement: HeardStatement): Promise<string[]>
  end(): Promise<void>
}

/** A table is long that has so many pages of 8 kB: less PostgreSQL may well read at a go. */
const LONG_PAGES = 40
/** After so many plans for its values PostgreSQL may settle on one for all values. */
const PLANS = 6
const PLANNED = /^\s*(WITH|SELECT|INSERT|UPDATE|DELETE)\b/i

/**
 * Asks PostgreSQL how it answers statements on a record as it is, without running them. A statement is planned as often as
 * it takes for PostgreSQL to settle on one plan for all values, as it may do with those we name.
 */
export async function openPlanner(url: string): Promise<Planner> {
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  const isLong = await readLongTables(client)
  const indexes = await readIndexes(client)

  function* readsOf(node: PlanNode, isLimited: boolean): Generator<string> {
    const index = indexes.get(node['Index Name'] ?? '')
    const table = node['Relation Name'] ?? index?.table
    const isEarlyDone = isLimited && node.Filter === undefined
    const isWhole =
      node['Node Type'] === 'Seq Scan' || (index !== undefined && !index.isPartial && node['Index Cond'] === undefined)
    if (table !== undefined && isLong.has(table) && isWhole && !isEarlyDone) yield table
    for (const child of node.Plans ?? []) yield* readsOf(child, node['Node Type'] === 'Limit')
  }

  return {
    async wholeReads({ text, values }) {
      if (!PLANNED.test(text)) return []
      await client.query(`PREPARE heard AS ${text}`)
      const found = new Set<string>()
      for (let plan = 0; plan < PLANS; plan++) {
        const given = values[plan % values.length]!.map(literal).join(', ')
        const { rows } = await client.query(`EXPLAIN (FORMAT JSON) EXECUTE heard${given && `(${given})`}`)
        for (const table of readsOf(rows[0]['QUERY PLAN'][0].Plan, false)) found.add(table)
      }
      await client.query('DEALLOCATE heard')
      return [...found].sort()
    },
    end: () => client.end(),
  }
}

async function readLongTables(client: pg.Client): Promise<Set<string>> {
  const { rows } = await client.query(
    `SELECT relname AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r'
      AND pg_relation_size(oid) >= $1::int * current_setting('block_size')::int`,
    [LONG_PAGES],
  )
  return new Set(rows.map(({ name }) => name))
}

async function readIndexes(client: pg.Client): Promise<Map<string, { table: string; isPartial: boolean }>> {
  const { rows } = await client.query(
    `SELECT i.indexrelid::regclass::text AS name, i.indrelid::regclass::text AS table, i.indpred IS NOT NULL AS partial
    FROM pg_index i JOIN pg_class c ON c.oid = i.indrelid WHERE c.relnamespace = 'public'::regnamespace`,
  )
  return new Map(rows.map(({ name, table, partial }) => [name.replaceAll('"', ''), { table, isPartial: partial }]))
}

/** A value as it stands in SQL; the driver sends the same text beside the statement. */
function literal(value: unknown): string {
  if (value === null || value === undefined) return 'NULL'
  if (Array.isArray(value)) return pg.escapeLiteral(`{${value.map(element).join(',')}}`)
  if (Buffer.isBuffer(value)) return pg.escapeLiteral(`\\x${value.toString('hex')}`)
  return pg.escapeLiteral(typeof value === 'object' ? JSON.stringify(value) : String(value))
}

const element = (value: unknown): string => (value === null ? 'NULL' : JSON.stringify(String(value)))
