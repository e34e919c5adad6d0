import type { Transaction } from '../../../db/client.ts'
import { Prisma } from '../../../db/generated/client.ts'
import { type PutAside, takeRows } from './merge-moves.db.ts'

/** What two entries have with each other, or both have, that no one soldier can have. Counts. */
export interface Clashes {
  readonly coachedEachOther: number
  /** Sheets and bookings on which both stand, in different parts. */
  readonly metAtTests: number
  readonly accounts: number
  readonly ceremonies: number
  readonly bookings: number
  readonly slots: number
  /** Periods of both that overlap without one lying within the other. */
  readonly sponsorships: number
  readonly appointments: number
  readonly absences: number
}

const DAYS = (alias: string, to: string) => Prisma.raw(`daterange(${alias}.from_day, ${alias}.${to}, '[]')`)

/** Overlap, neither within the kept one's. */
const straddles = (to: string) =>
  Prisma.sql`${DAYS('a', to)} && ${DAYS('k', to)} AND NOT ${DAYS('k', to)} @> ${DAYS('a', to)}`

/** True for a booking on which both stand, in different parts. */
const meetOn = (keptId: string, awayId: string) => Prisma.sql`
  ARRAY[${keptId}::uuid, ${awayId}::uuid] <@ ARRAY[candidate_id, grader_id, second_grader_id]`

/** True for a ceremony `c` in which a soldier stands or steps in. */
const namedAt = (soldier: Prisma.Sql) => Prisma.sql`(
  EXISTS (SELECT FROM post WHERE ceremony_id = c.id AND soldier_id = ${soldier})
  OR EXISTS (SELECT FROM alternate WHERE ceremony_id = c.id AND soldier_id = ${soldier}))`

export async function readClashes(tx: Transaction, keptId: string, awayId: string): Promise<Clashes> {
  const [kept, away] = [Prisma.sql`${keptId}::uuid`, Prisma.sql`${awayId}::uuid`]
  const both = Prisma.sql`ARRAY[${kept}, ${away}]`
  const [row] = await tx.$queryRaw<[Clashes]>`
    SELECT
    (SELECT count(*)::int FROM sponsorship WHERE candidate_id = ANY(${both}) AND sponsor_id = ANY(${both}))
      AS "coachedEachOther",
    (SELECT count(*)::int FROM sheet WHERE purpose = 'test' AND (SELECT count(DISTINCT one) FROM unnest(ARRAY[candidate_id,
        sponsor_id, grader_id]) one WHERE one = ANY(${both})) = 2)
      + (SELECT count(*)::int FROM booking WHERE ${meetOn(keptId, awayId)} AND state <> 'cancelled') AS "metAtTests",
    (SELECT count(*)::int FROM account WHERE soldier_id = ANY(${both})) AS accounts,
    (SELECT count(*)::int FROM ceremony c WHERE cancelled_at IS NULL
      AND ${namedAt(away)} AND ${namedAt(kept)}) AS ceremonies,
    (SELECT count(*)::int FROM booking a JOIN booking k ON k.test_day_id = a.test_day_id AND k.standard_id = a.standard_id
      WHERE a.candidate_id = ${away} AND k.candidate_id = ${kept} AND a.state <> 'cancelled' AND k.state <> 'cancelled')
      AS bookings,
    (SELECT count(*)::int FROM slot a JOIN slot k ON tstzrange(a.starts_at, a.ends_at) && tstzrange(k.starts_at, k.ends_at)
      WHERE a.grader_id = ${away} AND k.grader_id = ${kept} AND NOT a.called_off AND NOT k.called_off) AS slots,
    (SELECT count(*)::int FROM sponsorship a JOIN sponsorship k ON ${straddles('to_day')}
        AND (a.candidate_id = ${away} AND k.candidate_id = ${kept} AND a.sponsor_id = k.sponsor_id
          OR a.sponsor_id = ${away} AND k.sponsor_id = ${kept} AND a.candidate_id = k.candidate_id)) AS sponsorships,
    (SELECT count(*)::int FROM appointment a JOIN appointment k ON ${straddles('to_day')}
        AND a.soldier_id = ${away} AND k.soldier_id = ${kept} AND a.standard = k.standard) AS appointments,
    (SELECT count(*)::int FROM absence a JOIN absence k ON ${straddles('through_day')}
        AND a.soldier_id = ${away} AND k.soldier_id = ${kept}) AS absences`
  return row
}

/**
 * Takes out periods of the entry given up that lie within the same of the kept one, for they say nothing more, and
 * what no one person can have: cancelled bookings on which both stand, and an undone merge of the same two.
 */
export async function takeContained(tx: Transaction, keptId: string, awayId: string): Promise<PutAside[]> {
  const [kept, away] = [Prisma.sql`${keptId}::uuid`, Prisma.sql`${awayId}::uuid`]
  const within = (table: string, column: string, other: Prisma.Sql, to = 'to_day') =>
    takeRows(
      tx,
      table,
      Prisma.sql`t.${Prisma.raw(column)} = ${away} AND EXISTS (SELECT FROM ${Prisma.raw(table)} k
        WHERE k.${Prisma.raw(column)} = ${kept} AND ${other} AND ${DAYS('k', to)} @> ${DAYS('t', to)})`,
    )
  return [
    ...(await within('sponsorship', 'candidate_id', Prisma.sql`k.sponsor_id = t.sponsor_id`)),
    ...(await within('sponsorship', 'sponsor_id', Prisma.sql`k.candidate_id = t.candidate_id`)),
    ...(await within('appointment', 'soldier_id', Prisma.sql`k.standard = t.standard`)),
    ...(await within('absence', 'soldier_id', Prisma.sql`true`, 'through_day')),
    ...(await takeRows(tx, 'soldier_merge', Prisma.sql`t.kept_id = ${away} AND t.away_id = ${kept}`)),
    ...(await takeRows(tx, 'booking', Prisma.sql`${meetOn(keptId, awayId)} AND state = 'cancelled'`)),
  ]
}

/** Tests of the same standard by both entries at one time. */
export async function readSameTimes(
  tx: Transaction,
  keptId: string,
  awayId: string,
): Promise<{ standard: string; day: string; sheetId: string; otherId: string }[]> {
  return tx.$queryRaw`
    SELECT st.code AS standard, k.day::text AS day, k.id::text AS "sheetId", a.id::text AS "otherId"
    FROM sheet k JOIN sheet a ON a.candidate_id = ${awayId}::uuid AND a.standard_id = k.standard_id
      AND tstzrange(a.started_at, a.finished_at, '[]') && tstzrange(k.started_at, k.finished_at, '[]')
    JOIN standard st ON st.id = k.standard_id WHERE k.candidate_id = ${keptId}::uuid ORDER BY k.finished_at, k.id`
}
