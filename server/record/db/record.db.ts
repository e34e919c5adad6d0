import type { RecordItem } from '../../contract/record/record.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import { firstWordsOf, type RecordKind } from '../../domain/record/record-kinds.ts'

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
  readonly soldierId?: string | undefined
  readonly kind?: RecordKind | 'changes' | undefined
}

const FIRST_WORD = Prisma.sql`split_part(action, '.', 1)`

/** What is about a soldier: the entry, also under ids given up to it, the sheets as candidate, the account. */
const subjectsOf = (soldierId: string): Prisma.Sql => Prisma.sql`
  SELECT ${soldierId} AS subject UNION SELECT away_id::text FROM soldier_merge WHERE kept_id = ${soldierId}::uuid
  UNION SELECT id::text FROM sheet WHERE candidate_id = ${soldierId}::uuid
  UNION SELECT id::text FROM account WHERE soldier_id = ${soldierId}::uuid`

/**
 * The newest entries that meet conditions. With a soldier or a kind it is a few walks down an index, one for each subject
 * or first word, of which each needs to give no more than a page: so the cost does not grow with the record.
 */
function newest({ soldierId, kind }: RecordFilter, conditions: readonly Prisma.Sql[], limit: number): Prisma.Sql {
  const walk = (also: Prisma.Sql) => Prisma.sql`
    (SELECT * FROM record_entry WHERE ${Prisma.join([...conditions, also], ' AND ')} ORDER BY seq DESC LIMIT ${limit})`
  const ofKind =
    kind === undefined
      ? Prisma.sql`true`
      : kind === 'changes'
        ? Prisma.sql`${FIRST_WORD} <> 'session'`
        : Prisma.sql`${FIRST_WORD} = ANY(${[...firstWordsOf(kind)]})`
  if (soldierId) {
    return Prisma.sql`(${subjectsOf(soldierId)}) about
      CROSS JOIN LATERAL ${walk(Prisma.sql`subject_id = about.subject AND ${ofKind}`)} found`
  }
  if (kind === undefined || kind === 'changes') return Prisma.sql`${walk(ofKind)} found`
  return Prisma.sql`unnest(${[...firstWordsOf(kind)]}::text[]) AS first(word)
    CROSS JOIN LATERAL ${walk(Prisma.sql`${FIRST_WORD} = first.word`)} found`
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
  if (filter.account) {
    const name = filter.account.toLowerCase()
    conditions.push(
      Prisma.sql`(lower(account_name) = ${name} OR starts_with(lower(account_name), ${`${name}, by token `}))`,
    )
  }
  if (filter.action) conditions.push(Prisma.sql`starts_with(action, ${filter.action})`)
  if (filter.subjectId) conditions.push(Prisma.sql`subject_id = ${filter.subjectId}`)
  return tx.$queryRaw<RecordItem[]>`
    SELECT seq::int, to_char(at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at,
      account_id::text AS "accountId", account_name AS "accountName", address, action, subject_kind AS "subjectKind",
      subject_id AS "subjectId", before, after, reason, encode(hash, 'hex') AS hash,
      array_remove(ARRAY[CASE WHEN who_salt IS NULL THEN 'who' END, CASE WHEN what_salt IS NULL THEN 'what' END], NULL) AS emptied
    FROM ${newest(filter, conditions, page.limit)} ORDER BY seq DESC LIMIT ${page.limit}`
}

/** An entry that does not fit the chain, as SQL finds it. */
export interface ChainBreak {
  readonly seq: number
  /** Its own fields do not give its hash. */
  readonly changed: boolean
  /** It does not follow on the hash of the entry before it. */
  readonly unlinked: boolean
  /** It was emptied, and no removal of a soldier says so. */
  readonly unexplained: boolean
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
    SELECT (SELECT count(*)::int FROM record_entry) AS entries,
      COALESCE((SELECT max(seq)::int FROM record_entry), 0) AS "lastSeq",
      (SELECT encode(hash, 'hex') FROM record_entry ORDER BY seq DESC LIMIT 1) AS "lastHash",
      head.seq::int AS "headSeq", encode(head.hash, 'hex') AS "headHash",
      (SELECT COALESCE(json_agg(json_build_object('seq', seq, 'changed', changed, 'unlinked', unlinked,
          'unexplained', unexplained, 'missingBefore', missing) ORDER BY seq), '[]')
        FROM (SELECT * FROM record_breaks() LIMIT ${SHOWN_BREAKS}) broken) AS breaks
    FROM record_head head`
  return row
}
