import { z } from 'zod'
import { Code, Day, page, Uuid } from '../common.ts'
import { CertificationStatus } from '../standards/certifications.ts'

/** Everything that is held about a soldier: named lists, one for each kind of entry, each entry with named values. */
export const SoldierExtract = z
  .object({
    madeAt: z.iso.datetime(),
    soldier: z.object({
      id: Uuid,
      rosterNumber: z.string(),
      familyName: z.string(),
      givenName: z.string(),
      heightCm: z.int().nullable(),
    }),
    lists: z.record(z.string(), z.array(z.record(z.string(), z.unknown()))),
  })
  .meta({ id: 'SoldierExtract' })

export const CertificateQuery = z.strictObject({ certification: Code })

export const CertificateNumber = Uuid.describe('What stands on the certificate as its record number.')

/** A certification in force, as it may be printed. */
export const Certificate = z
  .object({
    number: CertificateNumber,
    unit: z.string(),
    soldier: z.object({
      id: Uuid,
      rosterNumber: z.string(),
      familyName: z.string(),
      givenName: z.string(),
      grade: z.string(),
    }),
    certification: Code,
    title: z.string(),
    awardedOn: Day,
    validThrough: Day,
    asOf: Day,
    signed: z
      .string()
      .nullable()
      .describe(
        'The certificate signed by the unit, as a JSON Web Signature in compact form; null: this server has no key.',
      ),
    checkAddress: z
      .string()
      .nullable()
      .describe('Where people open this server, as scheme, host and port; null: nobody has said.'),
  })
  .meta({ id: 'Certificate' })

/** The award behind a record number, and how its soldier stands today; null: in none of the certifications that fit. */
export const CertificateRecord = Certificate.omit({ unit: true, signed: true, checkAddress: true })
  .safeExtend({ status: CertificationStatus.nullable() })
  .meta({ id: 'CertificateRecord' })

export const CertificateParams = z.strictObject({ number: CertificateNumber })

export const CertificateRecordPage = page(CertificateRecord)

export type SoldierExtract = z.infer<typeof SoldierExtract>
export type Certificate = z.infer<typeof Certificate>
export type CertificateRecord = z.infer<typeof CertificateRecord>
