import type { AwardItem } from '../../../contract/imports/import-items.ts'
import { carriedAwardsOf, insertCarriedAwards, type KnownAward } from '../../db/import-facts.db.ts'
import { soldiersByNumber } from '../../db/import-people.db.ts'
import { findCertification } from '../find-named.ts'
import { type Effect, type Given, holdSoldiers, inParts, type Run, verdictList } from '../run.ts'

const TOGETHER = 5_000

/** Carries over awards from before the unit joined, each with its evidence. */
export async function applyAwards(run: Run, given: readonly Given<AwardItem>[]): Promise<Effect> {
  const { tx, catalogue, note, progress } = run
  const { verdicts, say } = verdictList()
  const soldiers = await soldiersByNumber(
    tx,
    given.map(({ item }) => item.rosterNumber),
  )
  const ids = [...soldiers.values()].map(({ id }) => id)
  await holdSoldiers(run, ids)
  const known = new Map<string, KnownAward>()
  for (const award of await carriedAwardsOf(tx, ids)) known.set(keyOf(award), award)
  const added: KnownAward[] = []
  for (const { rows, about, item } of given) {
    const { rosterNumber, certification: name, ...award } = item
    const soldier = soldiers.get(rosterNumber)!
    const certification = findCertification(catalogue, name)!
    const own = { ...award, soldierId: soldier.id, certificationId: certification.id }
    const same = known.get(keyOf(own))
    if (same && same.validThrough === own.validThrough && same.evidence === own.evidence) say(rows, 'unchanged', about)
    else if (same) {
      const detail = `An award of this day is recorded already, valid through ${same.validThrough}, by "${same.evidence}". One day has one award.`
      say(rows, 'refused', about, detail)
    } else {
      known.set(keyOf(own), own)
      added.push(own)
      note({
        action: 'award.carried-over',
        subject: { kind: 'soldier', id: soldier.id },
        after: { ...award, certification: certification.code },
        reason: award.evidence,
      })
      say(rows, 'added', about)
    }
  }
  await inParts(added, TOGETHER, async (part, done) => {
    progress('awards', done, added.length)
    await insertCarriedAwards(tx, part)
  })
  return {
    verdicts,
    triggers: added.map(({ soldierId, awardedOn }) => ({ soldierId, qualifiesAnewFrom: awardedOn })),
  }
}

const keyOf = ({ soldierId, certificationId, awardedOn }: KnownAward): string =>
  `${soldierId} ${certificationId} ${awardedOn}`
