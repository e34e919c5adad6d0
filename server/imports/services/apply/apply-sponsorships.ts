import type { SponsorshipItem } from '../../../contract/imports/import-items.ts'
import { endSponsorships, insertSponsorships, sponsorshipsOf } from '../../db/import-facts.db.ts'
import { soldiersByNumber } from '../../db/import-people.db.ts'
import { mergePeriods } from '../merge-periods.ts'
import { type Effect, type Given, holdSoldiers, type Run, verdictList } from '../run.ts'

/** Takes in who coaches whom; sheets of the candidates are judged again. */
export async function applySponsorships(run: Run, given: readonly Given<SponsorshipItem>[]): Promise<Effect> {
  const { tx, note } = run
  const { verdicts, say } = verdictList()
  const soldiers = await soldiersByNumber(
    tx,
    given.flatMap(({ item }) => [item.candidate, item.sponsor]),
  )
  await holdSoldiers(
    run,
    [...soldiers.values()].map(({ id }) => id),
  )
  const sound = given.map((one) => {
    const { candidate, sponsor, from, to = null } = one.item
    return { ...one, period: { of: soldiers.get(candidate)!.id, by: soldiers.get(sponsor)!.id, from, to } }
  })
  const recorded = await sponsorshipsOf(
    tx,
    sound.map(({ period }) => period.of),
  )
  const { added, ended } = mergePeriods(recorded, sound, say)
  await endSponsorships(tx, ended)
  await insertSponsorships(tx, added)
  for (const { of, by, from, to } of added) {
    note({ action: 'sponsorship.added', subject: { kind: 'soldier', id: of }, after: { sponsorId: by, from, to } })
  }
  for (const { of, by, from, to } of ended) {
    note({
      action: 'sponsorship.ended',
      subject: { kind: 'soldier', id: of },
      before: { sponsorId: by, from, to: null },
      after: { sponsorId: by, from, to },
    })
  }
  return { verdicts, triggers: [...added, ...ended].map(({ of }) => ({ soldierId: of })) }
}
