import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { readStatuses } from '../../../assessment/db/standings.db.ts'
import type { Context } from '../../../context/context.ts'
import { todayOfSoldier } from '../../../context/today.ts'
import type { Certificate, CertificateRecord } from '../../../contract/soldiers/extracts.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { canExtract } from '../../../domain/access/permissions.ts'
import { conflict, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { readAward, readAwardsOfNumber, readUnitName } from '../../db/extracts/certificates.db.ts'
import { readPresentIds } from '../../db/merges/merges.db.ts'
import { readSoldier } from '../../db/roster.db.ts'

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
  await recorded(context, actor, async (_, note) => {
    note({
      action: 'certificate.made',
      subject: { kind: 'soldier', id },
      after: { certification, number: award.number, asOf },
    })
  })
  return certificate
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
