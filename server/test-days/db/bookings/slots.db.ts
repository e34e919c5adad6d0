import { soldierInScope, subtree, unitInScope } from '../../../access/db/scope.db.ts'
import type { Slot } from '../../../contract/test-days/test-days.ts'
import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'
import type { Scope } from '../../../domain/access/scope.ts'

export const UTC = Prisma.sql`'YYYY-MM-DD"T"HH24:MI:SS"Z"'`

/** Columns and tables of slots as lists show them; who is booked only where the scope lets one see them. */
export const slotColumns = (scope: Scope): Prisma.Sql => Prisma.sql`
  slot.id::text, slot.test_day_id::text AS "testDayId", day.on_day::text AS "on", day.place,
  day.unit_id::text AS "unitId", slot.grader_id::text AS "graderId",
  grader.family_name || ', ' || grader.given_name AS "graderName",
  to_char(slot.starts_at AT TIME ZONE 'UTC', ${UTC}) AS "startsAt",
  to_char(slot.ends_at AT TIME ZONE 'UTC', ${UTC}) AS "endsAt", held.id IS NOT NULL AS taken,
  CASE WHEN ${soldierInScope(scope, Prisma.sql`held.candidate_id`)} THEN held.id::text END AS "bookingId"
  FROM slot JOIN test_day day ON day.id = slot.test_day_id LEFT JOIN soldier grader ON grader.id = slot.grader_id
  LEFT JOIN booking held ON held.slot_id = slot.id AND held.state <> 'cancelled'`

export interface SlotFilter {
  readonly from: string
  readonly through?: string | undefined
  readonly unitId?: string | undefined
  /** Only those that are free and have not begun by this instant. */
  readonly freeAt?: Date | undefined
}

/** SQL that is true for slots, with `held` as their booking, that somebody can still be given: free and not begun. */
const stillFree = (now: Date): Prisma.Sql => Prisma.sql`held.id IS NULL AND slot.starts_at > ${now}`

/** A page of slots of test days that take place, in order of time. */
export async function listSlots(
  tx: Transaction,
  scope: Scope,
  { from, through, unitId, freeAt }: SlotFilter,
  page: { limit: number; after: { startsAt: string; id: string } | null },
): Promise<Slot[]> {
  const conditions = [
    Prisma.sql`day.called_off_at IS NULL AND day.on_day >= ${from}::date`,
    unitInScope(scope, Prisma.sql`day.unit_id`),
  ]
  if (through) conditions.push(Prisma.sql`day.on_day <= ${through}::date`)
  if (unitId) conditions.push(Prisma.sql`day.unit_id = ANY(${subtree(unitId)})`)
  if (freeAt) conditions.push(stillFree(freeAt))
  if (page.after) {
    const { startsAt, id } = page.after
    conditions.push(Prisma.sql`(slot.starts_at, slot.id) > (${startsAt}::timestamptz, ${id}::uuid)`)
  }
  return tx.$queryRaw<Slot[]>`
    SELECT ${slotColumns(scope)} WHERE ${Prisma.join(conditions, ' AND ')}
    ORDER BY slot.starts_at, slot.id LIMIT ${page.limit}`
}

export interface NewSlot {
  readonly graderId: string | null
  readonly startsAt: Date
  readonly endsAt: Date
}

/** Stores slots; fails where a grader would have two at a time. Out: their ids. */
export async function insertSlots(tx: Transaction, testDayId: string, slots: readonly NewSlot[]): Promise<string[]> {
  const rows = await tx.slot.createManyAndReturn({
    data: slots.map((slot) => ({ testDayId, ...slot })),
    select: { id: true },
  })
  return rows.map(({ id }) => id)
}

export async function readSlots(tx: Transaction, scope: Scope, ids: readonly string[]): Promise<Slot[]> {
  return tx.$queryRaw<Slot[]>`
    SELECT ${slotColumns(scope)} WHERE slot.id = ANY(${[...ids]}::uuid[]) ORDER BY slot.starts_at, slot.id`
}

export interface BusyGrader {
  readonly name: string
  readonly place: string
  readonly startsAt: Date
  readonly endsAt: Date
}

/** The first slot that one of these graders has already while one of the new ones would run; null where there is none. */
export async function findBusyGrader(
  tx: Transaction,
  slots: readonly NewSlot[],
  exceptSlotId: string | null,
): Promise<BusyGrader | null> {
  const wanted = JSON.stringify(slots.filter(({ graderId }) => graderId !== null))
  const rows = await tx.$queryRaw<BusyGrader[]>`
    SELECT g.family_name || ', ' || g.given_name AS name, d.place, s.starts_at AS "startsAt", s.ends_at AS "endsAt"
    FROM jsonb_to_recordset(${wanted}::jsonb) AS w("graderId" uuid, "startsAt" timestamptz, "endsAt" timestamptz)
    JOIN slot s ON s.grader_id = w."graderId" AND s.starts_at < w."endsAt" AND w."startsAt" < s.ends_at
    JOIN soldier g ON g.id = s.grader_id JOIN test_day d ON d.id = s.test_day_id
    WHERE NOT s.called_off AND s.id IS DISTINCT FROM ${exceptSlotId}::uuid ORDER BY s.starts_at LIMIT 1`
  return rows[0] ?? null
}

export interface LockedSlot {
  readonly id: string
  readonly testDayId: string
  readonly graderId: string | null
  readonly startsAt: Date
  readonly endsAt: Date
  readonly day: string
  readonly calledOff: boolean
  /** The booking in it that is not cancelled. */
  readonly bookingId: string | null
}

/** Slots, locked with their test days until the transaction ends, in order of their ids. */
export async function lockSlots(tx: Transaction, ids: readonly string[]): Promise<LockedSlot[]> {
  await tx.$executeRaw`
    SELECT FROM test_day WHERE id IN (SELECT test_day_id FROM slot WHERE id = ANY(${[...ids]}::uuid[]))
    ORDER BY id FOR SHARE`
  await tx.$executeRaw`SELECT FROM slot WHERE id = ANY(${[...ids]}::uuid[]) ORDER BY id FOR UPDATE`
  return tx.$queryRaw<LockedSlot[]>`
    SELECT s.id::text, s.test_day_id::text AS "testDayId", s.grader_id::text AS "graderId", s.starts_at AS "startsAt",
      s.ends_at AS "endsAt", d.on_day::text AS day, d.called_off_at IS NOT NULL AS "calledOff",
      b.id::text AS "bookingId"
    FROM slot s JOIN test_day d ON d.id = s.test_day_id
    LEFT JOIN booking b ON b.slot_id = s.id AND b.state <> 'cancelled' WHERE s.id = ANY(${[...ids]}::uuid[])`
}

export async function updateSlotGrader(tx: Transaction, id: string, graderId: string | null): Promise<void> {
  await tx.slot.update({ where: { id }, data: { graderId } })
  await tx.booking.updateMany({ where: { slotId: id, state: { in: ['booked', 'checked in'] } }, data: { graderId } })
}

/** Removes a slot; cancelled bookings that were in it stay, in no slot. */
export async function deleteSlot(tx: Transaction, id: string): Promise<void> {
  await tx.slot.delete({ where: { id } })
}

/** Moves the slots of a day by so many milliseconds each, all at once. */
export async function shiftSlots(
  tx: Transaction,
  testDayId: string,
  moved: ReadonlyMap<string, NewSlot>,
): Promise<void> {
  const rows = JSON.stringify([...moved].map(([id, slot]) => ({ id, ...slot })))
  await tx.$executeRaw`
    UPDATE slot SET starts_at = m."startsAt", ends_at = m."endsAt"
    FROM jsonb_to_recordset(${rows}::jsonb) AS m(id uuid, "startsAt" timestamptz, "endsAt" timestamptz)
    WHERE slot.id = m.id AND slot.test_day_id = ${testDayId}::uuid`
}

/** The free slots of these test days that have not begun, of those days that take place, in order of time. */
export async function listFreeSlotsOf(
  tx: Transaction,
  scope: Scope,
  testDayIds: readonly string[],
  now: Date,
): Promise<Slot[]> {
  return tx.$queryRaw<Slot[]>`
    SELECT ${slotColumns(scope)} WHERE day.id = ANY(${[...testDayIds]}::uuid[]) AND day.called_off_at IS NULL
      AND ${stillFree(now)} ORDER BY slot.starts_at, slot.id`
}

/**
 * Free slots after a day that have not begun, on test days of the same unit, of those above and of those below it, the
 * first of them.
 */
export async function listFreeSlotsAfter(
  tx: Transaction,
  scope: Scope,
  testDayId: string,
  now: Date,
  most: number,
): Promise<Slot[]> {
  return tx.$queryRaw<Slot[]>`
    SELECT ${slotColumns(scope)} JOIN unit u ON u.id = day.unit_id, test_day off JOIN unit ou ON ou.id = off.unit_id
    WHERE off.id = ${testDayId}::uuid AND day.on_day > off.on_day AND day.called_off_at IS NULL AND ${stillFree(now)}
      AND (u.lineage @> ARRAY[ou.id] OR ou.lineage @> ARRAY[u.id])
    ORDER BY slot.starts_at, slot.id LIMIT ${most}`
}
