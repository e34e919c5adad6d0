import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { readStatuses } from '../../../assessment/db/standings.db.ts'
import type { Context } from '../../../context/context.ts'
import { todayOfSoldier } from '../../../context/today.ts'
import type { Certificate, CertificateRecord } from '../../../contract/soldiers/extracts.ts'
import type { SignedCertificate } from '../../../contract/soldiers/signed-certificates.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { canExtract } from '../../../domain/access/permissions.ts'
import { conflict, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { keepPublicKey } from '../../db/extracts/certificate-keys.db.ts'
import { readAward, readAwardsOfNumber, readUnitName } from '../../db/extracts/certificates.db.ts'
import { readPresentIds } from '../../db/merges/merges.db.ts'
import { readSoldier } from '../../db/roster.db.ts'
import { kidOf, signText } from './signature.ts'

const ALL = { limit: 500, after: null }

/**
 * What a certificate states: only of a certification in force today and not suspended.
 * @throws AppError not-found; conflict where the soldier is not certified
 */
export async function makeCertificate(
  context: Context,
  actor: Actor,
  asked: string,
  certification: string,
): Promise<Certificate> {
  const id = (await readPresentIds(context.db, [asked])).get(asked) ?? asked
  if (!canExtract(actor, id)) throw notFound('soldier')
  const scope = await scopeFor(context, actor)
  const asOf = await todayOfSoldier(context, id)
  const soldier = await readSoldier(context.db, scope, id, asOf)
  if (!soldier) throw notFound('soldier')
  const statuses = await readStatuses(context.db, scope, id, asOf, ALL)
  const status = statuses.find((one) => one.certification === certification)
  const { awardedOn, validThrough } = status ?? {}
  const award =
    status?.status === 'certified' && !status.suspended && awardedOn && validThrough
      ? await readAward(context.db, id, certification, { awardedOn, validThrough })
      : null
  if (award === null || soldier.unitId === null) throw notInForce(status?.status, soldier.unitId === null)
  const { rosterNumber, familyName, givenName, grade, unitId } = soldier
  const certificate = {
    number: award.number,
    unit: await readUnitName(context.db, unitId),
    soldier: { id, rosterNumber, familyName, givenName, grade },
    certification,
    title: award.title,
    awardedOn: award.awardedOn,
    validThrough: award.validThrough,
    asOf,
  }
  const { key, signed } = await sign(context, certificate)
  await recorded(context, actor, async (tx, note) => {
    if (key !== null) await keepPublicKey(tx, key)
    note({
      action: 'certificate.made',
      subject: { kind: 'soldier', id },
      after: { certification, number: award.number, asOf },
    })
  })
  return { ...certificate, signed, checkAddress: context.address() }
}

/** Signs what stands on the paper, and nothing else; and the public key to check it by. */
async function sign(
  { certificateKey, clock }: Context,
  { soldier, ...certificate }: Omit<Certificate, 'signed' | 'checkAddress'>,
) {
  if (certificateKey === null) return { key: null, signed: null }
  const { number, title, awardedOn, validThrough, unit, asOf } = certificate
  const { givenName, familyName, grade } = soldier
  const paper: SignedCertificate = { number, givenName, familyName, grade, title, awardedOn, validThrough, unit, asOf }
  const kid = await kidOf(certificateKey)
  const signed = await signText(JSON.stringify(paper), certificateKey, { kid })
  return { key: { kid, x: certificateKey.x, at: clock() }, signed }
}

const notInForce = (status: string | undefined, hasLeft: boolean) =>
  conflict(
    'certificate-not-in-force',
    hasLeft
      ? 'The soldier is not on strength today, so no certificate is made.'
      : `A certificate is made only of a certification that is in force today and not suspended; this one is “${status ?? 'not held'}”.`,
  )

/**
 * What stands behind the record number of a certificate that somebody shows, and how its soldier stands today.
 * @throws AppError not-found
 */
export async function lookUpCertificate(
  context: Context,
  actor: Actor,
  number: string,
): Promise<{ items: CertificateRecord[]; next: null }> {
  requireAction(actor, 'carry-over-awards')
  const scope = await scopeFor(context, actor)
  const awards = await readAwardsOfNumber(context.db, number)
  const found = awards.map(async ({ soldierId: id, ...award }) => {
    const asOf = await todayOfSoldier(context, id)
    const soldier = await readSoldier(context.db, scope, id, asOf)
    if (!soldier) return []
    const { rosterNumber, familyName, givenName, grade } = soldier
    const statuses = await readStatuses(context.db, scope, id, asOf, ALL)
    const status = statuses.find(({ certification }) => certification === award.certification) ?? null
    return [{ ...award, soldier: { id, rosterNumber, familyName, givenName, grade }, asOf, status }]
  })
  const items = (await Promise.all(found)).flat()
  if (items.length === 0) throw notFound('award')
  return { items, next: null }
}
