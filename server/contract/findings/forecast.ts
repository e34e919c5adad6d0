import { z } from 'zod'

const Limits = z.object({ low: z.number().nullable(), high: z.number().nullable() })

const BaselineScore = z
  .object({
    baseline: z
      .enum(['kind', 'last'])
      .describe('kind: the unit’s pass rate in that kind of attempt; last: the share of GO measures at the last test.'),
    brier: z.number(),
    logScore: z.number(),
    gain: z.number().describe('By how much the model’s Brier score is less.'),
    gainInterval: Limits,
  })
  .meta({ id: 'BaselineScore' })

const ReliabilityBin = z
  .object({
    from: z.number(),
    to: z.number(),
    n: z.int(),
    forecast: z.number().describe('Mean of what was forecast.'),
    passed: z.number().describe('Share that passed.'),
    low: z.number(),
    high: z.number(),
  })
  .meta({ id: 'ReliabilityBin' })

const KindCheck = z
  .object({
    kind: z.enum(['first', 'retest', 'renewal']),
    n: z.int(),
    brier: z.number(),
    baselineBrier: z.number(),
    shown: z.enum(['model', 'baseline']),
  })
  .meta({ id: 'KindCheck' })

/** The forecasts that would have been made the day before past tests, and how they came out. */
export const ForecastFindings = z
  .object({
    n: z.int(),
    brier: z.number().nullable(),
    brierInterval: Limits.nullable(),
    logScore: z.number().nullable(),
    baselines: z.array(BaselineScore),
    slope: z.number().nullable().describe('Calibration slope; 1 is right, null: cannot be estimated.'),
    slopeInterval: Limits.nullable(),
    intercept: z.number().nullable().describe('Calibration intercept in logits, the slope held at 1; 0 is right.'),
    interceptInterval: Limits.nullable(),
    bins: z.array(ReliabilityBin),
    kinds: z.array(KindCheck),
  })
  .meta({ id: 'ForecastFindings' })
export type ForecastFindings = z.infer<typeof ForecastFindings>
