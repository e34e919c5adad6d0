import { z } from 'zod'
import { Code, Day, Instant, PlainDate, page, Uuid, Words } from '../common.ts'

const RequiredOf = z
  .strictObject({
    grades: z.array(Code).max(100).nullable().default(null),
    units: z.array(Uuid).max(1000).nullable().default(null),
  })
  .meta({ id: 'RequiredOf' })

/** A certification and the terms that hold from `effectiveFrom`. A second one of the same code makes new terms. */
export const CertificationBody = z
  .strictObject({
    code: Code,
    title: Words,
    standards: z.array(Code).min(1).max(50),
    arms: z.array(Code).max(20).default([]),
    sequence: z.enum(['any', 'in-order']).default('any'),
    windowDays: z.int().min(1).max(3660).default(90),
    validityMonths: z.int().min(1).max(600).default(12),
    waitDays: z.int().min(0).max(3660).default(7),
    dueDays: z.int().min(0).max(3660).default(30),
    reviewAfter: z.int().min(1).max(1000).default(3),
    approval: z
      .enum(['none', 'required', 'required-from-award'])
      .default('none')
      .describe(
        'Whether what is earned by test waits for a commander, and is in force from the day it is signed, or once signed from the day it was earned.',
      ),
    extensionDays: z
      .int()
      .min(0)
      .max(3660)
      .default(0)
      .describe('By so many days in all one certification may be extended.'),
    requiredOf: RequiredOf.nullable()
      .default(null)
      .describe('Null, or a null list: anyone whom the certification fits.'),
    effectiveFrom: PlainDate,
  })
  .meta({ id: 'CertificationBody' })

export const Certification = CertificationBody.safeExtend({ id: Uuid }).meta({
  id: 'Certification',
})

export const CertificationPage = page(Certification)

export const StatusWord = z.enum([
  'suspended',
  'certified',
  'awaiting approval',
  'retest due',
  'part way',
  'lapsed',
  'no test yet',
])

const Status = {
  certification: Code,
  status: StatusWord,
  awardedOn: Day.nullable(),
  validThrough: Day.nullable(),
  suspended: z.boolean(),
  toward: z.array(z.object({ standard: Code, on: Day, countsUntil: Day })),
  retestOpen: z.array(Code),
}

export const CertificationStatus = z.object(Status).meta({ id: 'CertificationStatus' })

export const CertificationStatusPage = page(CertificationStatus)

const BY = ['number', 'state', 'name', 'unit', 'valid'] as const

/** What a list of who can stand is sorted by; with a minus the other way round. Valid: through which day. */
export const ReadinessSort = z.enum([...BY, ...BY.map((by) => `-${by}` as const)])

/** Who can stand: one row a soldier and certification; with the first page the counts of the whole subtree. */
export const Readiness = z
  .object({
    asOf: PlainDate,
    items: z.array(
      z.object({
        soldierId: Uuid,
        rosterNumber: z.string(),
        name: z.string(),
        grade: z.string(),
        unitId: Uuid,
        required: z.boolean(),
        ...Status,
        since: Day.nullable().describe(
          'The first day of the unbroken time in this status; null: nothing happened yet.',
        ),
        suspension: z.object({ from: Day, reason: z.string() }).nullable().describe('The one in force.'),
        retests: z.array(z.object({ standard: Code, on: Day, earliest: Day, due: Day })).describe('Open that day.'),
        booked: z
          .array(z.object({ standard: Code, on: Day, startsAt: Instant.nullable() }))
          .describe('Tests for this certification booked from today on.'),
      }),
    ),
    totals: z
      .array(z.object({ certification: Code, status: StatusWord, required: z.boolean(), count: z.int() }))
      .describe('Of the unit asked about with all below it, with the first page alone.'),
    counts: z
      .array(z.object({ unitId: Uuid, certification: Code, status: StatusWord, required: z.boolean(), count: z.int() }))
      .describe('Of the first units that have anybody, in the order of the tree, with the first page alone.'),
    nextCounts: z
      .string()
      .nullable()
      .describe('Where there are further units: `after` of GET /api/readiness/units, asked otherwise alike.'),
    next: z.string().nullable(),
  })
  .meta({ id: 'Readiness' })

export const Retest = z
  .object({
    soldierId: Uuid,
    certification: Code,
    standard: Code,
    attempt: z.int(),
    on: Day,
    earliest: Day,
    due: Day,
    pastDue: z.boolean(),
    noGosInARow: z.int(),
    needsReview: z.boolean(),
    rosterNumber: z.string(),
    name: z.string(),
    grade: z.string(),
    unitId: Uuid,
    dueMoved: z
      .object({ ruleDue: Day, reason: z.string() })
      .optional()
      .describe('Where the office moved the due day: the one by the rules, and why.'),
  })
  .meta({ id: 'Retest' })

export const RetestPage = page(Retest)

export type CertificationBody = z.infer<typeof CertificationBody>
export type Certification = z.infer<typeof Certification>
export type CertificationStatus = z.infer<typeof CertificationStatus>
export type Readiness = z.infer<typeof Readiness>
export type ReadinessSort = z.infer<typeof ReadinessSort>
export type Retest = z.infer<typeof Retest>
