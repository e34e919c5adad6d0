import type { CertificationBody } from '../../contract/standards/certifications.ts'
import type { StandardBody } from '../../contract/standards/standards.ts'
import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'

/** Stores a draft version of a standard. Out: the id of the version. */
export async function insertStandardVersion(tx: Transaction, body: StandardBody): Promise<string> {
  const { id: standardId } = await tx.standard.upsert({
    where: { code: body.code },
    create: { code: body.code },
    update: {},
    select: { id: true },
  })
  const { version, effectiveFrom, equivalentToPrevious } = body
  const created = await tx.standardVersion.create({
    data: { standardId, version, effectiveFrom: toDate(effectiveFrom), equivalentToPrevious, definition: { ...body } },
    select: { id: true },
  })
  return created.id
}

/** Replaces what a draft says. */
export async function updateStandardVersion(tx: Transaction, id: string, body: StandardBody): Promise<void> {
  const { effectiveFrom, equivalentToPrevious } = body
  await tx.standardVersion.update({
    where: { id },
    data: { effectiveFrom: toDate(effectiveFrom), equivalentToPrevious, definition: { ...body } },
  })
}

/** Deletes a draft, and its standard where it was the only version and nothing names the standard. */
export async function deleteStandardVersion(tx: Transaction, id: string, standardId: string): Promise<void> {
  await tx.standardVersion.delete({ where: { id } })
  await tx.$executeRaw`
    DELETE FROM standard s WHERE s.id = ${standardId}::uuid
      AND NOT EXISTS (SELECT FROM standard_version WHERE standard_id = s.id)
      AND NOT EXISTS (SELECT FROM certification_standard WHERE standard_id = s.id)
      AND NOT EXISTS (SELECT FROM booking WHERE standard_id = s.id)
      AND NOT EXISTS (SELECT FROM appointment WHERE standard = s.code)
      AND NOT EXISTS (SELECT FROM review WHERE standard = s.code)`
}

/** Whether a test was taken under a version. */
export async function hasSheets(tx: Transaction, id: string): Promise<boolean> {
  return (await tx.sheet.count({ where: { standardVersionId: id }, take: 1 })) > 0
}

export async function publishStandardVersion(tx: Transaction, id: string, at: Date): Promise<void> {
  await tx.standardVersion.update({ where: { id }, data: { publishedAt: at } })
}

/** Stores a new certification without terms. Out: its id. */
export async function insertCertification(
  tx: Transaction,
  { code, title, arms }: Pick<CertificationBody, 'code' | 'title' | 'arms'>,
  standardIds: readonly string[],
): Promise<string> {
  const standards = { create: standardIds.map((standardId, position) => ({ standardId, position })) }
  const { id } = await tx.certification.create({ data: { code, title, arms, standards }, select: { id: true } })
  return id
}

/** Stores the terms of a certification from their day on. */
export async function insertTerms(tx: Transaction, certificationId: string, body: CertificationBody): Promise<void> {
  const { sequence, windowDays, validityMonths, waitDays, dueDays, reviewAfter } = body
  const { approval, extensionDays, requiredOf } = body
  await tx.certificationTerms.create({
    data: {
      certificationId,
      effectiveFrom: toDate(body.effectiveFrom),
      sequence,
      windowDays,
      validityMonths,
      waitDays,
      dueDays,
      reviewAfter,
      approval,
      extensionDays,
      requiredGrades: requiredOf?.grades ?? Prisma.DbNull,
      requiredUnits: requiredOf?.units ?? Prisma.DbNull,
    },
  })
  await tx.certification.update({ where: { id: certificationId }, data: { title: body.title } })
}

/** Everyone whom a change to these standards or certifications may concern: with sheets, awards or suspensions in them. */
export async function findConcerned(tx: Transaction, standards: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    WITH touched AS (SELECT id FROM standard WHERE code = ANY(${[...standards]})),
    certs AS (SELECT DISTINCT certification_id AS id FROM certification_standard WHERE standard_id IN (SELECT id FROM touched))
    SELECT candidate_id::text AS id FROM sheet WHERE standard_id IN (SELECT id FROM touched)
    UNION SELECT soldier_id::text FROM carried_award WHERE certification_id IN (SELECT id FROM certs)
    UNION SELECT soldier_id::text FROM suspension WHERE certification_id IN (SELECT id FROM certs)
    ORDER BY 1`
  return rows.map(({ id }) => id)
}
