import { sheetInScope, soldierInScope, subtree, unitInScope } from '../../access/db/scope.db.ts'
import type { Slot, TestDay, TestDayBody, TestDayDetail } from '../../contract/test-days/test-days.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { slotColumns } from './bookings/slots.db.ts'
import { gradedBy } from './bookings/walk-ins.db.ts'

export async function insertTestDay(tx: Transaction, { on, unitId, place }: TestDayBody): Promise<string> {
  const { id } = await tx.testDay.create({ data: { onDay: toDate(on), unitId, place }, select: { id: true } })
  return id
}

/** Test days (a row named `day`) that a scope lets one see: of its units, with one of its soldiers booked, or on which its grader grades. */
export const testDayVisible = (
  scope: Scope,
  day: Prisma.Sql = Prisma.sql`d`,
): Prisma.Sql => Prisma.sql`(${unitInScope(scope, Prisma.sql`${day}.unit_id`)}
  OR EXISTS (SELECT FROM booking x WHERE x.test_day_id = ${day}.id AND x.state <> 'cancelled'
    AND ${soldierInScope(scope, Prisma.sql`x.candidate_id`)})
  OR ${scope.graderId === null || scope.within ? Prisma.sql`false` : gradedBy(scope.graderId, Prisma.sql`${day}.id`)})`

export async function testDayInScope(tx: Transaction, scope: Scope, id: string): Promise<boolean> {
  const rows = await tx.$queryRaw<
    unknown[]
  >`SELECT FROM test_day d WHERE d.id = ${id}::uuid AND ${testDayVisible(scope)}`
  return rows.length > 0
}

const columns = (scope: Scope, now: Date): Prisma.Sql => Prisma.sql`
  d.id::text, d.on_day::text AS "on", d.unit_id::text AS "unitId", d.place,
  (SELECT count(*)::int FROM sheet s WHERE s.test_day_id = d.id
    AND ${sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)}) AS sheets,
  (SELECT count(*)::int FROM slot WHERE slot.test_day_id = d.id) AS slots,
  (SELECT count(*)::int FROM slot WHERE slot.test_day_id = d.id AND d.called_off_at IS NULL
    AND slot.starts_at > ${now} AND NOT EXISTS (SELECT FROM booking b WHERE b.slot_id = slot.id AND b.state <> 'cancelled')) AS "freeSlots",
  (SELECT count(*)::int FROM booking b WHERE b.test_day_id = d.id AND b.state <> 'cancelled'
    AND ${soldierInScope(scope, Prisma.sql`b.candidate_id`)}) AS bookings,
  CASE WHEN d.called_off_at IS NOT NULL THEN json_build_object(
    'at', to_char(d.called_off_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"'), 'reason', d.call_off_reason)
  END AS "calledOff"`

export interface TestDayFilter {
  readonly from?: string | undefined
  readonly through?: string | undefined
  readonly unitId?: string | undefined
}

/** A page of test days, latest first. */
export async function listTestDays(
  tx: Transaction,
  scope: Scope,
  { from, through, unitId }: TestDayFilter,
  now: Date,
  page: { limit: number; after: { on: string; id: string } | null },
): Promise<TestDay[]> {
  const conditions = [testDayVisible(scope)]
  if (from) conditions.push(Prisma.sql`d.on_day >= ${from}::date`)
  if (through) conditions.push(Prisma.sql`d.on_day <= ${through}::date`)
  if (unitId) conditions.push(Prisma.sql`d.unit_id = ANY(${subtree(unitId)})`)
  if (page.after) conditions.push(Prisma.sql`(d.on_day, d.id) < (${page.after.on}::date, ${page.after.id}::uuid)`)
  return tx.$queryRaw<TestDay[]>`
    SELECT ${columns(scope, now)} FROM test_day d WHERE ${Prisma.join(conditions, ' AND ')}
    ORDER BY d.on_day DESC, d.id DESC LIMIT ${page.limit}`
}

/** One test day in scope with its slots; null where there is none. */
export async function readTestDay(
  tx: Transaction,
  scope: Scope,
  id: string,
  now: Date,
): Promise<Omit<TestDayDetail, 'zone'> | null> {
  const rows = await tx.$queryRaw<Omit<TestDayDetail, 'zone' | 'slotList'>[]>`
    SELECT ${columns(scope, now)}, (SELECT count(*)::int FROM sheet s WHERE s.test_day_id = d.id
      AND NOT EXISTS (SELECT FROM booking b WHERE b.sheet_id = s.id) AND s.second_of IS NULL AND s.purpose = 'test'
      AND ${sheetInScope(scope, Prisma.sql`s.candidate_id`, Prisma.sql`s.grader_id`)}) AS "sheetsWithoutBooking"
    FROM test_day d WHERE d.id = ${id}::uuid AND ${testDayVisible(scope)}`
  if (!rows[0]) return null
  const slotList = await tx.$queryRaw<Slot[]>`
    SELECT ${slotColumns(scope)} WHERE slot.test_day_id = ${id}::uuid ORDER BY slot.starts_at, slot.id`
  return { ...rows[0], slotList }
}

export interface PlannedDay {
  readonly on: string
  readonly place: string
  readonly unitId: string
  readonly calledOff: boolean
  /** A sheet was taken, or somebody was there or marked as not there. */
  readonly tookPlace: boolean
  readonly bookings: number
}

/** A test day, locked until the transaction ends; null where there is none. */
export async function lockTestDay(tx: Transaction, id: string): Promise<PlannedDay | null> {
  const rows = await tx.$queryRaw<PlannedDay[]>`
    SELECT on_day::text AS "on", place, unit_id::text AS "unitId", called_off_at IS NOT NULL AS "calledOff",
      EXISTS (SELECT FROM sheet WHERE test_day_id = d.id) OR EXISTS (SELECT FROM booking
        WHERE test_day_id = d.id AND state NOT IN ('booked', 'cancelled')) AS "tookPlace",
      (SELECT count(*)::int FROM booking WHERE test_day_id = d.id AND state <> 'cancelled') AS bookings
    FROM test_day d WHERE id = ${id}::uuid FOR UPDATE`
  return rows[0] ?? null
}

export async function updateTestDay(tx: Transaction, id: string, { on, place }: { on: string; place: string }) {
  await tx.testDay.update({ where: { id }, data: { onDay: toDate(on), place } })
}
