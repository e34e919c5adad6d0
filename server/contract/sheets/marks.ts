import { z } from 'zod'
import { Code, Text } from '../common.ts'

const TrialNumber = z.int().min(1).max(99)

export const Mark = z.enum(['correct', 'incorrect'], { error: 'Mark a trial correct, incorrect or null.' }).nullable()

export const MarkedFault = z.strictObject({ trial: TrialNumber, code: Code }).meta({ id: 'MarkedFault' })

export const MarkedReading = z
  .strictObject({
    trial: TrialNumber,
    gauge: Code,
    value: z
      .string({ error: 'A reading is a string such as "5.25", so that it is kept as entered.' })
      .regex(/^-?\d{1,4}(\.\d{1,4})?$/, {
        error: 'A reading has up to four digits and up to four decimals, such as "5.25".',
      }),
    override: Text.nullable().default(null),
  })
  .meta({ id: 'MarkedReading' })

export const MarkedMinor = z
  .strictObject({
    code: Code,
    trials: z.array(Mark).max(99).default([]),
    faults: z.array(MarkedFault).max(500).default([]),
    readings: z.array(MarkedReading).max(500).default([]),
  })
  .meta({ id: 'MarkedMinor' })

export const MarkedMajor = z
  .strictObject({
    code: Code,
    mark: z.enum(['GO', 'NO-GO'], { error: 'A major measure is GO, NO-GO or null.' }).nullable().default(null),
    atCall: z.int().min(0).nullish(),
    faults: z.array(Code).max(100).default([]),
    note: Text.nullable().default(null),
  })
  .meta({ id: 'MarkedMajor' })

export const VoidReason = z
  .strictObject({ kind: z.enum(['weather', 'injury', 'equipment', 'interrupted', 'other']), text: Text.default('') })
  .refine((reason) => reason.kind !== 'other' || reason.text.trim() !== '', {
    error: 'A void of kind "other" needs a text that says why.',
    path: ['text'],
  })
  .meta({ id: 'VoidReason' })

export const OutcomeOnly = z.enum(['GO', 'NO-GO'])
