import { z } from 'zod'
import { Code, PlainDate, page, storableText, Text, Uuid, Words } from '../common.ts'

const Fault = z.strictObject({ code: Code, title: Words }).meta({ id: 'Fault' })

const Check = z
  .strictObject({ code: Code, title: Words, kind: storableText(40).default('fits'), arm: Code.optional() })
  .meta({ id: 'Check' })

const Major = z
  .strictObject({ code: Code, title: Words, criteria: z.array(Words).default([]), faults: z.array(Fault).default([]) })
  .meta({ id: 'MajorMeasure' })

const Minor = z
  .strictObject({
    code: Code,
    title: Words,
    counts: z.int().min(1).max(99).nullable().default(null),
    gauges: z.array(Code).default([]),
    checks: z
      .strictObject({ preparatory: z.array(Check).default([]), execution: z.array(Check).default([]) })
      .default({ preparatory: [], execution: [] }),
    faults: z.array(Fault).default([]),
  })
  .meta({ id: 'MinorMeasure' })

const Decimal = z.string().regex(/^-?\d{1,4}(\.\d{1,4})?$/, { error: 'Give a decimal such as "4" or "5.25".' })

const Gauge = z
  .strictObject({
    code: Code,
    title: Words,
    unit: storableText(20),
    min: Decimal.nullable().default(null),
    max: Decimal.nullable().default(null),
    target: Decimal.nullish(),
    low: Code.nullish(),
    high: Code.nullish(),
    origin: Text.optional(),
  })
  .meta({ id: 'Gauge' })

const Call = z
  .strictObject({
    measure: Code,
    trial: z.int().min(1).max(99),
    from: Text.optional(),
    preparatory: Text.optional(),
    execution: z.union([Text, z.record(Code, Text)]).optional(),
    cadence: Text.optional(),
    finish: z.array(Text).optional(),
    unbroken: Code.optional(),
    steps: z.array(Text).optional(),
    readable: z.boolean().optional(),
  })
  .meta({ id: 'Call' })

const isPercent = (value: string | number): boolean =>
  /^\d{1,3}(\.\d{1,6})?$/.test(String(value)) && Number(value) > 0 && Number(value) <= 100

const Percent = z.union([z.string().max(12), z.number()]).refine(isPercent, {
  error: 'The percentage lies above 0 and at most 100, with up to six decimals, such as "80" or "66.7".',
})

const Rule = z
  .strictObject({
    trials: z.int().min(1).max(9).default(3),
    needed: z.int().min(1).max(9).default(2),
    percent: Percent.default('80'),
  })
  .refine((rule) => rule.needed <= rule.trials, {
    error: 'No more can be needed than there are trials.',
    path: ['needed'],
  })
  .meta({ id: 'ScoringRule' })

/** A version of a standard as data: what is tested, in which order it is called, and what counts as GO. */
export const StandardBody = z
  .strictObject({
    code: Code,
    version: z.int().min(1).max(100_000).default(1),
    title: Words,
    arms: z.array(Code).max(20).default([]),
    task: Text.default(''),
    conditions: z.array(Text).default([]),
    standard: Text.default(''),
    references: z.array(z.strictObject({ title: Words, edition: Text.default('') })).default([]),
    rule: Rule.default({ trials: 3, needed: 2, percent: '80' }),
    majors: z.array(Major).max(50).default([]),
    minors: z.array(Minor).min(1).max(200),
    gauges: z.array(Gauge).max(100).default([]),
    calls: z
      .array(Call)
      .max(1800)
      .default([])
      .describe('The order of calls; left out, each measure is called its trials running, measure after measure.'),
    cautions: z.array(Text).default([]),
    effectiveFrom: PlainDate,
    equivalentToPrevious: z.boolean().default(true),
  })
  .meta({ id: 'StandardBody' })

export const Standard = StandardBody.safeExtend({ id: Uuid, publishedAt: z.string().nullable() }).meta({
  id: 'Standard',
})

export const StandardPage = page(Standard)

export const Beginnings = z.object({ items: z.array(StandardBody) }).meta({ id: 'Beginnings' })

/** What is otherwise in a version than in another, in words. Before null: new; after null: no longer there. */
export const Comparison = z
  .object({
    with: z.int().nullable().describe('The other version; null where there is none before.'),
    changes: z.array(
      z.object({
        part: z.enum(['rule', 'measures', 'faults', 'gauges', 'calls', 'text']),
        what: z.string(),
        before: z.string().nullable(),
        after: z.string().nullable(),
      }),
    ),
  })
  .meta({ id: 'Comparison' })

export const ComparisonQuery = z.strictObject({ with: Uuid.optional().describe('The id of the other version.') })

export type Comparison = z.infer<typeof Comparison>
export type Beginnings = z.infer<typeof Beginnings>
export type StandardBody = z.infer<typeof StandardBody>
export type Standard = z.infer<typeof Standard>
