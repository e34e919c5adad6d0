import { z } from 'zod'
import { Code, PlainDate, Uuid } from '../common.ts'

const Chance = z.number().min(0).max(1)

const MeasureForecast = z.object({ measure: Code, go: Chance }).meta({ id: 'MeasureForecast' })

const DrillGain = z
  .object({
    measure: Code,
    gain: z.number().describe('Rise of the chance to pass when the logit of a trial of it rises by 1.'),
  })
  .meta({ id: 'DrillGain' })

const WhatItTakes = z
  .object({
    measures: z.array(Code),
    correct: z.int(),
    of: z.int(),
    from: Chance,
    to: Chance.describe('The chance to pass if those were done right in so many of so many trials.'),
  })
  .meta({ id: 'WhatItTakes' })

export const ForecastFit = z
  .object({
    sheets: z.int().describe('Sheets of the unit that the model rests on.'),
    through: PlainDate.nullable().describe('Day of the last of them.'),
    fittedAt: z.iso.datetime(),
    byPriors: z.boolean().describe('Too few sheets: spreads and gains are assumed, not found.'),
  })
  .meta({ id: 'ForecastFit' })

const Baseline = z
  .object({
    rate: Chance.describe('Pass rate of the unit in this kind of attempt.'),
    tests: z.int(),
    checked: z.int().describe('Past tests of this kind that forecasts were compared on.'),
    modelBrier: z.number().nullable(),
    baselineBrier: z.number().nullable(),
  })
  .meta({ id: 'ForecastBaseline' })

export const Forecast = z
  .object({
    standard: Code,
    kind: z.enum(['first', 'retest', 'renewal']),
    pass: Chance,
    low: Chance,
    high: Chance.describe('With low: 95 % limits of the candidate’s own chance.'),
    basis: z
      .enum(['model', 'baseline'])
      .describe(
        'baseline: for this kind of attempt the model was no better than the unit’s pass rate, which is given.',
      ),
    sheets: z.int().describe('Sheets of the candidate with marks that it rests on.'),
    sheetIds: z.array(Uuid),
    measures: z.array(MeasureForecast),
    drill: z.array(DrillGain).describe('By falling gain.'),
    goSince: z.array(Code).describe('NO-GO once, and GO when last tested.'),
    notReached: z.array(Code).describe('No test of the candidate has reached them.'),
    whatItTakes: WhatItTakes.nullable().describe('Null: no measure is below what is needed.'),
    baseline: Baseline,
    fit: ForecastFit,
  })
  .meta({ id: 'Forecast' })
export type Forecast = z.infer<typeof Forecast>

/** At most so many forecasts in one question. */
const MOST_ASKED = 100
const UUID_LENGTH = 36

const TestAsked = z
  .string()
  .regex(/^[^:]+:[^:]+$/, { error: 'Name each test as soldier:standard.' })
  .transform((text) => ({ soldierId: text.slice(0, UUID_LENGTH), standard: text.slice(UUID_LENGTH + 1) }))
  .pipe(z.object({ soldierId: Uuid, standard: Code }))

/** Whose next tests of what, in an address: "<soldier>:<standard>,<soldier>:<standard>". */
export const TestsAsked = z
  .string()
  .transform((text) => text.split(','))
  .pipe(z.array(TestAsked).max(MOST_ASKED, { error: `At most ${MOST_ASKED} tests in one question.` }))
  .describe(`Soldier and standard of each test, as soldier:standard, with commas between; at most ${MOST_ASKED}.`)

/** A forecast among others; what to drill comes along where it is asked for. */
export const ListedForecast = Forecast.omit({ sheetIds: true })
  .partial({ measures: true, drill: true, goSince: true, notReached: true, whatItTakes: true })
  .extend({ soldierId: Uuid })
  .meta({ id: 'ListedForecast' })
export type ListedForecast = z.infer<typeof ListedForecast>

export const ListedForecasts = z
  .object({ asOf: PlainDate, items: z.array(ListedForecast) })
  .meta({ id: 'ListedForecasts' })
export type ListedForecasts = z.infer<typeof ListedForecasts>

export const Forecasts = z.object({ asOf: PlainDate, items: z.array(Forecast) }).meta({ id: 'Forecasts' })

export const ForecastsQuery = z.strictObject({ asOf: PlainDate.optional() })

export const ListedForecastsQuery = z.strictObject({
  tests: TestsAsked,
  asOf: PlainDate.optional(),
  drill: z.enum(['true', 'false']).default('false').describe('With what to drill.'),
})

export type Forecasts = z.infer<typeof Forecasts>
