import { soldierInScope, subtree } from '../../access/db/scope.db.ts'
import type { Absence, AbsenceBody, AbsentSoldier } from '../../contract/soldiers/absences.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate, toDateOrNull } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'

const COLUMNS = Prisma.sql`a.id::text, a.soldier_id::text AS "soldierId", a.from_day::text AS "from",
  a.through_day::text AS through, a.kind`

const toRow = ({ from, through, kind }: AbsenceBody) => ({
  fromDay: toDate(from),
  throughDay: toDateOrNull(through),
  kind,
})

export async function insertAbsence(tx: Transaction, soldierId: string, body: AbsenceBody): Promise<string> {
  return (await tx.absence.create({ data: { soldierId, ...toRow(body) }, select: { id: true } })).id
}

export async function updateAbsence(tx: Transaction, id: string, body: AbsenceBody): Promise<void> {
  await tx.absence.update({ where: { id }, data: toRow(body) })
}

export async function deleteAbsence(tx: Transaction, id: string): Promise<void> {
  await tx.absence.delete({ where: { id } })
}

/** One absence, locked until the transaction ends; null where there is none in scope. */
export async function lockAbsence(tx: Transaction, scope: Scope, id: string): Promise<Absence | null> {
  const rows = await tx.$queryRaw<Absence[]>`
    SELECT ${COLUMNS} FROM absence a WHERE a.id = ${id}::uuid AND ${soldierInScope(scope, Prisma.sql`a.soldier_id`)}
    FOR UPDATE OF a`
  return rows[0] ?? null
}

/** A page of a soldier's absences, the latest first. Absences of one soldier never overlap. */
export async function listAbsences(
  tx: Transaction,
  soldierId: string,
  page: { limit: number; after: string | null },
): Promise<Absence[]> {
  return tx.$queryRaw<Absence[]>`
    SELECT ${COLUMNS} FROM absence a WHERE a.soldier_id = ${soldierId}::uuid
      AND (${page.after === null} OR a.from_day < ${page.after}::date)
    ORDER BY a.from_day DESC LIMIT ${page.limit}`
}

/** A page of those of the strength who are absent on a day, by roster number. */
export async function listAbsent(
  tx: Transaction,
  scope: Scope,
  { day, unitId }: { day: string; unitId?: string | undefined },
  page: { limit: number; after: string | null },
): Promise<AbsentSoldier[]> {
  const conditions = [
    Prisma.sql`daterange(a.from_day, a.through_day, '[]') @> ${day}::date`,
    soldierInScope(scope, Prisma.sql`s.id`, Prisma.sql`p.unit_id`),
  ]
  if (unitId) conditions.push(Prisma.sql`p.unit_id = ANY(${subtree(unitId)})`)
  if (page.after !== null) conditions.push(Prisma.sql`s.roster_number > ${page.after}`)
  return tx.$queryRaw<AbsentSoldier[]>`
    SELECT ${COLUMNS}, s.roster_number AS "rosterNumber", s.family_name || ', ' || s.given_name AS name, p.grade,
      p.unit_id::text AS "unitId"
    FROM absence a JOIN soldier s ON s.id = a.soldier_id
    JOIN soldier_period p ON p.soldier_id = s.id AND daterange(p.from_day, p.through_day, '[]') @> ${day}::date
    WHERE ${Prisma.join(conditions, ' AND ')} ORDER BY s.roster_number LIMIT ${page.limit}`
}
