import type { SponsorshipItem } from '../../../contract/imports/import-items.ts'
import { endSponsorships, insertSponsorships, sponsorshipsOf } from '../../db/import-facts.db.ts'
import { soldiersByNumber } from '../../db/import-people.db.ts'
import { mergePeriods } from '../merge-periods.ts'
import { type Effect, type Given, holdSoldiers, nobody, type Run, verdictList } from '../run.ts'

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
  const sound = given.flatMap((one) => {
    const { candidate, sponsor, from, to = null } = one.item
    const about = `${candidate}, coached by ${sponsor} from ${from}`
    const [of, by] = [soldiers.get(candidate), soldiers.get(sponsor)]
    const wrong = [...(of ? [] : [nobody(candidate)]), ...(by ? [] : [nobody(sponsor)])]
    if (of && of === by) wrong.push('Nobody is their own sponsor; name another soldier.')
    if (wrong.length > 0 || !of || !by) {
      say(one.rows, 'refused', about, ...wrong)
      return []
    }
    return [{ ...one, about, period: { of: of.id, by: by.id, from, to } }]
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
  return { verdicts, disturbances: [...added, ...ended].map(({ of }) => ({ soldierId: of })) }
}
