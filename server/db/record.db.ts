import type { RecordItem } from '../contract/record.ts'
import type { Transaction } from './client.ts'
import { Prisma } from './generated/client.ts'

/** A change as it goes into the record; `before` and `after` are plain data without needless personal detail. */
export interface RecordEntry {
  readonly action: string
  readonly subject: { readonly kind: string; readonly id: string | null }
  readonly before?: unknown
  readonly after?: unknown
  readonly reason?: string | null
}

export interface RecordAuthor {
  readonly accountId: string | null
  readonly name: string | null
  readonly address: string | null
}

/**
 * Appends entries to the record, in order. The last thing a transaction does: entries are chained one after the other,
 * so that from here to its end every other writer waits.
 */
export async function appendToRecord(
  tx: Transaction,
  author: RecordAuthor,
  at: Date,
  entries: readonly RecordEntry[],
): Promise<void> {
  if (entries.length === 0) return
  await tx.$executeRaw`
    INSERT INTO record_entry (at, account_id, account_name, address, action, subject_kind, subject_id, before, after, reason)
    SELECT ${at}, ${author.accountId}::uuid, ${author.name}, ${author.address}, e.value ->> 'action',
      e.value -> 'subject' ->> 'kind', e.value -> 'subject' ->> 'id', NULLIF(e.value -> 'before', 'null'),
      NULLIF(e.value -> 'after', 'null'), e.value ->> 'reason'
    FROM jsonb_array_elements(${JSON.stringify(entries)}::jsonb) WITH ORDINALITY AS e(value, n) ORDER BY n`
}

export interface RecordFilter {
  readonly from?: string | undefined
  readonly to?: string | undefined
  readonly account?: string | undefined
  readonly action?: string | undefined
  readonly subjectId?: string | undefined
}

/** A page of the record, latest first. `from` and `to` are days in UTC, inclusive. */
export async function listRecord(
  tx: Transaction,
  filter: RecordFilter,
  page: { limit: number; after: number | null },
): Promise<RecordItem[]> {
  const conditions = [Prisma.sql`true`]
  if (page.after !== null) conditions.push(Prisma.sql`seq < ${page.after}::bigint`)
  if (filter.from) conditions.push(Prisma.sql`at >= ${`${filter.from}T00:00:00Z`}::timestamptz`)
  if (filter.to) conditions.push(Prisma.sql`at < ${`${filter.to}T00:00:00Z`}::timestamptz + interval '1 day'`)
  if (filter.account) conditions.push(Prisma.sql`lower(account_name) = lower(${filter.account})`)
  if (filter.action) conditions.push(Prisma.sql`starts_with(action, ${filter.action})`)
  if (filter.subjectId) conditions.push(Prisma.sql`subject_id = ${filter.subjectId}`)
  return tx.$queryRaw<RecordItem[]>`
    SELECT seq::int, to_char(at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at,
      account_id::text AS "accountId", account_name AS "accountName", address, action, subject_kind AS "subjectKind",
      subject_id AS "subjectId", before, after, reason, encode(hash, 'hex') AS hash
    FROM record_entry WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY seq DESC LIMIT ${page.limit}`
}

/** An entry that does not fit the chain, as SQL finds it. */
export interface ChainBreak {
  readonly seq: number
  /** Its own fields do not give its hash. */
  readonly changed: boolean
  /** It does not follow on the hash of the entry before it. */
  readonly unlinked: boolean
  /** Numbers missing right before it. */
  readonly missingBefore: number
}

export interface ChainState {
  readonly entries: number
  readonly lastSeq: number
  readonly lastHash: string | null
  readonly headSeq: number
  readonly headHash: string
  readonly breaks: readonly ChainBreak[]
}

const SHOWN_BREAKS = 100

/** Goes through the whole record and reads where its chain is broken (the first hundred places), and where it ends. */
export async function readChain(tx: Transaction): Promise<ChainState> {
  const [row] = await tx.$queryRaw<[ChainState]>`
    WITH checked AS MATERIALIZED (
      SELECT seq, hash, hash <> record_entry_hash(e) AS changed,
        previous_hash <> lag(hash, 1, sha256('Reviewstand record of changes')) OVER (ORDER BY seq) AS unlinked,
        seq - lag(seq, 1, 0::bigint) OVER (ORDER BY seq) - 1 AS missing
      FROM record_entry e)
    SELECT (SELECT count(*)::int FROM checked) AS entries, COALESCE((SELECT max(seq)::int FROM checked), 0) AS "lastSeq",
      (SELECT encode(hash, 'hex') FROM checked ORDER BY seq DESC LIMIT 1) AS "lastHash",
      head.seq::int AS "headSeq", encode(head.hash, 'hex') AS "headHash",
      (SELECT COALESCE(json_agg(json_build_object('seq', seq, 'changed', changed, 'unlinked', unlinked,
          'missingBefore', missing) ORDER BY seq), '[]')
        FROM (SELECT * FROM checked WHERE changed OR unlinked OR missing > 0 ORDER BY seq LIMIT ${SHOWN_BREAKS}) broken) AS breaks
    FROM record_head head`
  return row
}
