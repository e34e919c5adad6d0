import { z } from 'zod'
import { Day } from '../common.ts'
import { CertificateNumber } from './extracts.ts'

/** What is signed of a certificate: what stands on the paper, and nothing else. */
export const SignedCertificate = z
  .object({
    number: CertificateNumber,
    givenName: z.string(),
    familyName: z.string(),
    grade: z.string(),
    title: z.string(),
    awardedOn: Day,
    validThrough: Day,
    unit: z.string(),
    asOf: Day,
  })
  .meta({ id: 'SignedCertificate' })

const LONGEST = 8192

export const CertificateCheckBody = z.strictObject({
  certificate: z
    .string()
    .max(LONGEST, { error: `At most ${LONGEST} characters.` })
    .describe('What the code on the certificate holds behind the #: a JSON Web Signature in compact form.'),
})

/** `unknown`: no key of this server signed it, or nothing is on record any more; why is not told. */
export const CheckedCertificate = z
  .object({
    state: z.enum(['valid', 'no-longer-in-force', 'unknown']),
    certificate: SignedCertificate.nullable(),
  })
  .meta({ id: 'CheckedCertificate' })

export type SignedCertificate = z.infer<typeof SignedCertificate>
export type CheckedCertificate = z.infer<typeof CheckedCertificate>
