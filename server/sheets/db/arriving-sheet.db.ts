import {
  type DossierRow,
  dossierOf,
  EARLIER_ATTEMPTS,
  FROM_PLACE_ON,
  peopleFor,
  type QualificationRow,
  type StoredDossier,
  toDossier,
  toPeople,
} from '../../assessment/db/dossiers.db.ts'
import { isAhead } from '../../assessment/db/settle-bookings.db.ts'
import type { Transaction } from '../../db/client.ts'
import { Prisma } from '../../db/generated/client.ts'
import type { KnownBefore } from '../../domain/assessment/types.ts'
import type { Attempt } from '../../domain/certification/types.ts'
import { type AskedSheet, openingOf, type SheetOpening } from './sheet-opening.db.ts'
import { IS_LATE } from './sheet-reads.db.ts'

/** What a sheet that is to be stored finds; the people on it are locked. */
export interface SheetGround extends Omit<SheetOpening, 'people'> {
  readonly catalogueRevision: bigint
  /** Who grades the booking with the sheet's id; null: there is none, or nobody was named. */
  readonly bookingGraderId: string | null
  /** The candidate has a booking for the standard that is not cancelled. */
  readonly isBooked: boolean
  /** The candidate has bookings whose time has not come. */
  readonly isBookedAhead: boolean
  /** There is the sheet of a second grader of the same attempt. */
  readonly hasSecond: boolean
  /** A later test of the candidate is here already. */
  readonly arrivesLate: boolean
  /** The candidate graded or sponsored tests, which hang on how the candidate stands. */
  readonly vouches: boolean
  /** Of the units the candidate was in. */
  readonly lineages: ReadonlyMap<string, readonly string[]>
  /** Of the candidate from the place of the sheet on, see `KnownBefore`; with what qualifies those on the sheet, too. */
  readonly dossier: StoredDossier
  readonly settled: KnownBefore
}

interface ArrivingSheet extends AskedSheet {
  readonly sponsorId: string | null
  readonly graderId: string
  readonly standard: string
  readonly purpose: string
  readonly secondOf: string | null
  /** As PostgreSQL takes it, as the end. */
  readonly startedAt: string
  readonly finishedAt: string
}

type GroundRow = Omit<SheetGround, 'lineages' | 'dossier' | 'settled'> &
  DossierRow & {
    readonly lineages: Record<string, string[]> | null
    readonly people: QualificationRow[] | null
    readonly since: string
    readonly earlier: Attempt[] | null
  }

/**
 * Reads all that storing and judging a sheet needs, in one question. In: the sheet, under the ids people have now. Sheets that
 * were over before it began come before it and overlap nothing new; of them only the attempts are read. A zone makes its day the
 * UTC day or a neighbour.
 */
export async function readGround(tx: Transaction, sheet: ArrivingSheet, now: Date): Promise<SheetGround> {
  const { id, candidateId, sponsorId, graderId, standard, purpose, secondOf, startedAt, finishedAt, utcDay } = sheet
  const besides = [graderId, ...(sponsorId === null ? [] : [sponsorId])]
  const [row] = await tx.$queryRaw<[GroundRow]>`
    SELECT (SELECT revision FROM catalogue) AS "catalogueRevision", ${openingOf(sheet)},
      (SELECT grader_id::text FROM booking WHERE id = ${id}::uuid) AS "bookingGraderId",
      EXISTS (SELECT FROM booking b JOIN standard st ON st.id = b.standard_id
        WHERE b.candidate_id = person.id AND b.state <> 'cancelled' AND st.code = ${standard}) AS "isBooked",
      EXISTS (SELECT FROM booking b JOIN test_day d ON d.id = b.test_day_id
        WHERE b.candidate_id = person.id AND ${isAhead(now)}) AS "isBookedAhead",
      EXISTS (SELECT FROM sheet WHERE second_of = ${id}::uuid) AS "hasSecond",
      (SELECT ${IS_LATE} FROM (SELECT ${id}::uuid AS id, ${purpose}::text AS purpose, person.id AS candidate_id,
        ${finishedAt}::timestamptz AS finished_at, ${now}::timestamptz AS received_at, ${secondOf}::uuid AS second_of) s)
        AS "arrivesLate",
      EXISTS (SELECT FROM sheet WHERE grader_id = person.id AND purpose = 'test')
        OR EXISTS (SELECT FROM sheet WHERE sponsor_id = person.id AND purpose = 'test') AS vouches,
      (SELECT json_object_agg(u.id, u.lineage) FROM unit u
        WHERE u.id IN (SELECT unit_id FROM soldier_period WHERE soldier_id = person.id)) AS lineages,
      ${dossierOf(FROM_PLACE_ON)}, ${EARLIER_ATTEMPTS} AS earlier, person.since::text,
      ${peopleFor(Prisma.sql`ARRAY[person.id]`, besides, FROM_PLACE_ON.sheets)} AS people
    FROM (SELECT own.id, own.place, LEAST(${utcDay}::date - 1,
        (SELECT min(day) FROM sheet WHERE candidate_id = own.id AND finished_at >= own.place)) AS since
      FROM (SELECT ${candidateId}::uuid AS id, ${startedAt}::timestamptz AS place) own OFFSET 0) person`
  const { lineages, people, since, earlier, ...rest } = row
  const dossier = toDossier(row, toPeople(people))
  return {
    ...rest,
    lineages: new Map(Object.entries(lineages ?? {})),
    dossier,
    settled: {
      day: since,
      attempts: earlier ?? [],
      overlapping: new Set(dossier.sheets.filter(({ overlaps }) => overlaps).map((one) => one.id)),
      standings: dossier.standings,
    },
  }
}
