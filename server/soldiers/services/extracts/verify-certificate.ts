import { readStatuses } from '../../../assessment/db/standings.db.ts'
import type { Context } from '../../../context/context.ts'
import { todayOfSoldier } from '../../../context/today.ts'
import type { CheckedCertificate, SignedCertificate } from '../../../contract/soldiers/signed-certificates.ts'
import { readHolder, readPublicKey } from '../../db/extracts/certificate-keys.db.ts'
import { type NumberedAward, readAwardsOfNumber } from '../../db/extracts/certificates.db.ts'
import { readRemovals } from '../../db/removals/removals.db.ts'
import { readSoldier } from '../../db/roster.db.ts'
import { kidIn, verifyText } from './signature.ts'

const UNKNOWN: CheckedCertificate = { state: 'unknown', certificate: null }
const ALL = { limit: 500, after: null }

/**
 * What a signed certificate states, and whether it is still in force. In: a compact JSON Web Signature, from anybody. What no key of
 * ours signed is unknown, without a reason; so is what was signed of somebody whose personal data was removed meanwhile.
 */
export async function verifyCertificate(context: Context, jws: string): Promise<CheckedCertificate> {
  const kid = kidIn(jws)
  const publicKey = kid && (await readPublicKey(context.db, kid))
  const text = publicKey ? await verifyText(jws, publicKey) : null
  if (text === null) return UNKNOWN
  const certificate: SignedCertificate = JSON.parse(text)
  const soldierId = await readHolder(context.db, certificate.number)
  if (soldierId === null || (await readRemovals(context.db, [soldierId])).size > 0) return UNKNOWN
  return { state: (await isInForce(context, soldierId, certificate)) ? 'valid' : 'no-longer-in-force', certificate }
}

/** Whether it holds today: somebody on strength, the award as the paper has it, certified and not suspended. */
async function isInForce(context: Context, soldierId: string, certificate: SignedCertificate): Promise<boolean> {
  const { awardedOn, validThrough } = certificate
  const today = await todayOfSoldier(context, soldierId)
  // The signature says whom this is about: nobody else is looked up, whoever asks.
  const scope = { everyone: true, unitId: null, selfId: null, sponsorId: null, graderId: null, today }
  const soldier = await readSoldier(context.db, scope, soldierId, today)
  if (!soldier || soldier.unitId === null || today > validThrough) return false
  const statuses = await readStatuses(context.db, scope, soldierId, today, ALL)
  const held = new Set(
    statuses.filter(({ status, suspended }) => status === 'certified' && !suspended).map((one) => one.certification),
  )
  const holds = (award: NumberedAward) =>
    award.awardedOn === awardedOn && award.validThrough >= validThrough && held.has(award.certification)
  const awards = await awardsStated(context, certificate)
  return awards.length > 0 && awards.every(holds)
}

/** The awards of the number with its title; where the title was worded anew since, all of the number. */
async function awardsStated({ db }: Context, { number, title }: SignedCertificate): Promise<NumberedAward[]> {
  const ofNumber = await readAwardsOfNumber(db, number)
  const titled = ofNumber.filter((award) => award.title === title)
  return titled.length > 0 ? titled : ofNumber
}
