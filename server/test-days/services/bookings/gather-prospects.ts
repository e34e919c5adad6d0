import { readDossiers } from '../../../assessment/db/dossiers.db.ts'
import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Prospect } from '../../../domain/booking/types.ts'
import { readMovedDue } from '../../../readiness/db/due-moves.db.ts'
import { readComingBookings, readPersonFacts, readSponsorIds } from '../../db/bookings/booking-facts.db.ts'

/** Somebody who is to be booked; `movedId` the booking that is to be moved. */
export interface Wanted {
  readonly candidateId: string
  readonly standard: string
  readonly movedId: string | null
}

/** The earliest day asked about, who may grade, and the instant from which bookings are still to come. */
interface Horizon {
  readonly from: string
  readonly graderIds: readonly string[]
  readonly now: Date
}

/** All that decides whether candidates can be booked, by the order of `wanted`. */
export async function gatherProspects(
  tx: Transaction,
  catalogue: Catalogue,
  wanted: readonly Wanted[],
  { from, graderIds, now }: Horizon,
): Promise<Prospect[]> {
  const candidateIds = [...new Set(wanted.map(({ candidateId }) => candidateId))]
  const sponsors = await readSponsorIds(tx, candidateIds)
  const dossiers = await readDossiers(tx, candidateIds, [...graderIds, ...sponsors])
  const people = [...new Set([...candidateIds, ...graderIds, ...sponsors])]
  const facts = await readPersonFacts(tx, people, from)
  const moved = await readMovedDue(tx, candidateIds)
  const coming = await readComingBookings(tx, candidateIds, from, now)
  const absences = new Map(facts.map((one) => [one.id, one.absences]))
  const engagements = new Map(facts.map((one) => [one.id, one.engagements]))
  return wanted.map(({ candidateId, standard, movedId }) => {
    const dossier = dossiers.get(candidateId)!
    return {
      catalogue: catalogue.judging,
      candidateId,
      standard,
      dossier,
      people: dossier.people,
      absences,
      engagements,
      bookings: coming.filter((one) => one.candidateId === candidateId),
      movedId,
      movedDue: new Map(
        moved
          .filter((one) => one.soldierId === candidateId && one.standard === standard)
          .map(({ certification, on, due }) => [`${certification} ${on}`, due]),
      ),
    }
  })
}
