import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'
import { ENTRIES_ABOUT, ENTRIES_BY, PERSONAL_TEXTS, type PersonalText } from './personal-texts.db.ts'

/** SQL with `:id` where the soldier stands. */
const about = (text: string, id: string): Prisma.Sql => {
  const parts = text.split(':id')
  return Prisma.sql(parts, ...parts.slice(1).map(() => id))
}

/** The columns as they are, and without words. */
const columnsOf = ({ texts, notes = [] }: PersonalText) => ({
  are: Prisma.raw([...texts, ...notes].map((name) => `"${name}"`).join(', ')),
  become: Prisma.raw(
    [...texts.map((name) => `words_removed("${name}")`), ...notes.map((name) => `without_words("${name}")`)].join(', '),
  ),
})

/** How many rows about a soldier have words that would go, by what they are. */
export async function countWords(tx: Transaction, id: string): Promise<{ what: string; count: number }[]> {
  const counted = []
  for (const text of PERSONAL_TEXTS) {
    if (text.own === null || text.apart) continue
    const { are, become } = columnsOf(text)
    const [row] = await tx.$queryRaw<[{ count: number }]>`
      SELECT count(*)::int AS count FROM ${Prisma.raw(text.table)}
      WHERE ${about(text.own, id)} AND ROW(${are}) IS DISTINCT FROM ROW(${become})`
    counted.push({ what: text.what, count: row.count })
  }
  return counted
}

/** Takes the words out of all rows about a soldier. */
export async function takeOutWords(tx: Transaction, id: string): Promise<void> {
  for (const text of PERSONAL_TEXTS) {
    if (text.own === null || text.apart) continue
    const { are, become } = columnsOf(text)
    await tx.$executeRaw`
      UPDATE ${Prisma.raw(text.table)} SET (${are}) = ROW(${become})
      WHERE ${about(text.own, id)} AND ROW(${are}) IS DISTINCT FROM ROW(${become})`
  }
}

export interface Mention {
  readonly what: string
  readonly count: number
  readonly places: readonly { kind: PersonalText['place']['kind']; id: string }[]
}

const SHOWN_PLACES = 20

/** Where words about others match a pattern, the first places of each kind. */
export async function findMentions(tx: Transaction, id: string, pattern: string): Promise<Mention[]> {
  const mentions: Mention[] = []
  for (const { table, texts, notes = [], what, own, place } of PERSONAL_TEXTS) {
    const others = own === null ? Prisma.sql`true` : Prisma.sql`(${about(own, id)}) IS NOT TRUE`
    const words = Prisma.raw([...texts, ...notes].map((name) => `"${name}"::text`).join(', '))
    const rows = await tx.$queryRaw<{ id: string | null; count: number }[]>`
      SELECT ${Prisma.raw(place.id)}::text AS id, count(*)::int AS count FROM ${Prisma.raw(table)}
      WHERE ${others} AND concat_ws(' ', ${words}) ~* ${pattern} GROUP BY 1 ORDER BY 1`
    const found = rows.slice(0, SHOWN_PLACES).flatMap((row) => (row.id ? [{ kind: place.kind, id: row.id }] : []))
    if (rows.length > 0) mentions.push({ what, count: rows.reduce((sum, { count }) => sum + count, 0), places: found })
  }
  return mentions
}

/** Rows that go whole, by what they are. */
const WHOLE: readonly { table: string; what: string; own: string }[] = [
  { table: 'absence', what: 'absences', own: 'soldier_id = :id::uuid' },
  { table: 'coaching_note', what: 'coaching notes about them', own: 'candidate_id = :id::uuid' },
  { table: 'practice', what: 'practice of chosen measures', own: 'candidate_id = :id::uuid' },
  { table: 'notice', what: 'notices to or about them', own: 'to_id = :id::uuid OR about_id = :id::uuid' },
  { table: 'running_test', what: 'tests said to be running', own: 'candidate_id = :id::uuid' },
  { table: 'plan', what: 'plans that name them', own: "problem::text LIKE '%' || :id || '%'" },
  ...[
    'session',
    'invitation',
    'known_device',
    'calendar_link',
    'script_token',
    'notice_read',
    'half_sign_in',
    'authenticator_app',
    'recovery_code',
    'passkey',
    'factor_reset',
    'mail',
    'mail_notice',
    'mail_code',
    'mail_choice',
    'mail_address',
    'push_subscription',
    'identity',
  ].map((table) => ({
    table,
    what: `${table.replaceAll('_', ' ')}s of their account`,
    own: 'account_id = (SELECT id FROM account WHERE soldier_id = :id::uuid)',
  })),
]

export async function countWhole(tx: Transaction, id: string): Promise<{ what: string; count: number }[]> {
  const counted = []
  for (const { table, what, own } of WHOLE) {
    const [row] = await tx.$queryRaw<[{ count: number }]>`
      SELECT count(*)::int AS count FROM ${Prisma.raw(table)} WHERE ${about(own, id)}`
    counted.push({ what, count: row.count })
  }
  return counted
}

export async function deleteWhole(tx: Transaction, id: string): Promise<void> {
  for (const { table, own } of WHOLE) {
    await tx.$executeRaw`DELETE FROM ${Prisma.raw(table)} WHERE ${about(own, id)}`
  }
}

/** What of a soldier stays. */
export async function countKept(tx: Transaction, id: string): Promise<{ what: string; count: number }[]> {
  return tx.$queryRaw<{ what: string; count: number }[]>`
    SELECT * FROM (VALUES
      ('grade sheets as candidate, with their marks', (SELECT count(*)::int FROM sheet WHERE candidate_id = ${id}::uuid)),
      ('grade sheets as sponsor or grader',
        (SELECT count(*)::int FROM sheet WHERE sponsor_id = ${id}::uuid OR grader_id = ${id}::uuid)),
      ('awards, by certification and day', (SELECT count(*)::int FROM earned_award WHERE soldier_id = ${id}::uuid)
        + (SELECT count(*)::int FROM carried_award WHERE soldier_id = ${id}::uuid)),
      ('periods of unit, grade and arms', (SELECT count(*)::int FROM soldier_period WHERE soldier_id = ${id}::uuid)),
      ('posts in ceremonies', (SELECT count(*)::int FROM post WHERE soldier_id = ${id}::uuid)),
      ('sponsorships', (SELECT count(*)::int FROM sponsorship WHERE candidate_id = ${id}::uuid OR sponsor_id = ${id}::uuid))
    ) kept(what, count)`
}

/** Files to be taken in that name somebody. `busy`: a server is at it. */
export async function findImportsNaming(tx: Transaction, pattern: string): Promise<{ id: string; busy: boolean }[]> {
  return tx.$queryRaw<{ id: string; busy: boolean }[]>`
    SELECT j.id::text, j.state IN ('checking', 'storing') AS busy FROM import_job j
    WHERE j.file_name ~* ${pattern} OR EXISTS (SELECT FROM import_row r
      WHERE r.import_id = j.id AND concat_ws(' ', r.content::text, r.about, r.reasons::text, r.problems::text) ~* ${pattern})`
}

/** Forgets files that are not taken in yet, with their rows. */
export async function deleteImports(tx: Transaction, ids: readonly string[]): Promise<void> {
  await tx.importJob.deleteMany({ where: { id: { in: [...ids] } } })
}

/** The soldier's number and names, heights included, are replaced; out: the number of the removal. */
export async function insertRemoval(
  tx: Transaction,
  removal: { soldierId: string; at: Date; byId: string | null },
): Promise<number> {
  const { number } = await tx.removal.create({ data: removal, select: { number: true } })
  return Number(number)
}

export async function replaceNames(
  tx: Transaction,
  id: string,
  names: { rosterNumber: string; familyName: string; givenName: string },
): Promise<void> {
  await tx.soldier.update({ where: { id }, data: { ...names, heightCm: null } })
}

/** Makes sure that no merge of this soldier can bring back what it put aside. */
export async function emptyMerges(tx: Transaction, id: string): Promise<void> {
  await tx.soldierMerge.updateMany({
    where: { keptId: id },
    data: { away: {}, moved: [], putAside: [], adopted: [], judged: [] },
  })
}

/** The account of a soldier, with whether it administers. */
export const readAccountOf = (tx: Transaction, soldierId: string) =>
  tx.account.findUnique({ where: { soldierId }, select: { id: true, name: true, roles: true } })

/** Leaves of an account only that it was one: what it did is on record under its id. */
export async function closeAccount(tx: Transaction, id: string, name: string, at: Date): Promise<void> {
  await tx.account.update({
    where: { id },
    data: { name, passwordHash: null, disabledAt: at, roles: ['soldier'], unitId: null },
  })
}

/** Numbers of the entries of the record by a soldier, and about them. */
export async function findEntries(tx: Transaction, id: string): Promise<{ who: number[]; what: number[] }> {
  const [row] = await tx.$queryRaw<[{ who: number[]; what: number[] }]>`
    SELECT ARRAY(SELECT seq::int FROM record_entry WHERE ${about(ENTRIES_BY, id)} ORDER BY seq) AS who,
      ARRAY(SELECT seq::int FROM record_entry WHERE ${about(ENTRIES_ABOUT, id)} ORDER BY seq) AS what`
  return row
}

/** Since when these soldiers are removed, by id; who is not is left out. */
export async function readRemovals(tx: Transaction, ids: readonly string[]): Promise<Map<string, Date>> {
  const rows = await tx.removal.findMany({
    where: { soldierId: { in: [...ids] } },
    select: { soldierId: true, at: true },
  })
  return new Map(rows.map(({ soldierId, at }) => [soldierId, at]))
}
