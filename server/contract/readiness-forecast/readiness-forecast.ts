import { z } from 'zod'
import { Code, Day, PlainDate, Uuid } from '../common.ts'

const Chance = z.number().min(0).max(1)

export const ForecastQuery = z.strictObject({
  unitId: Uuid.optional().describe('Left out: everybody in your scope.'),
  certification: Code,
  on: PlainDate.describe('Today or later.'),
})

const Need = z
  .object({
    ceremonies: z.array(z.object({ id: Uuid, title: z.string(), posts: z.int() })),
    posts: z.int().describe('Posts that ask for the certification at one time, at most.'),
    chance: Chance.describe('Of at least so many certified.'),
  })
  .meta({ id: 'ForecastNeed' })

/** How many of those required will be certified on a day. */
export const ReadinessForecast = z
  .object({
    unitId: Uuid.nullable(),
    certification: Code,
    asOf: Day,
    on: Day,
    required: z.int(),
    expected: z.number(),
    low: z.int(),
    high: z.int().describe('With low: at most a tenth of the chance lies below, and at most a tenth above.'),
    atLeast: z
      .array(z.object({ n: z.int(), chance: Chance }))
      .describe('For every n from 1 to all; in units of more than 1,000 where the chance is neither 1 nor 0.'),
    basis: z
      .enum(['record', 'model', 'baseline', 'mixed'])
      .describe(
        'What the chances to pass rest on. record: no test that matters is booked; model: each candidate’s forecast; baseline: the unit’s pass rate in that kind of attempt; mixed: some the one, some the other.',
      ),
    certifiedNow: z.int().describe('Of those required, today.'),
    lapsing: z.int().describe('Certified today, and not on that day if nothing more happens.'),
    booked: z.int().describe('Soldiers with a test booked until then.'),
    tests: z.object({ model: z.int(), baseline: z.int() }).describe('Tests booked until then, by basis.'),
    need: Need.nullable().describe(
      'Of the ceremonies of that day of the unit and those below it; null: there are none.',
    ),
  })
  .meta({ id: 'ReadinessForecast' })

export const ForecastDates = z
  .object({
    unitId: Uuid.nullable(),
    items: z
      .array(ReadinessForecast.omit({ atLeast: true }).meta({ id: 'ReadinessForecastSummary' }))
      .describe('By day, then certification.'),
  })
  .meta({ id: 'ForecastDates' })

export const PastReadiness = z
  .object({
    unitId: Uuid.nullable(),
    certification: Code,
    items: z
      .array(
        z.object({
          asOf: Day.describe('The end of a month.'),
          on: Day.describe('Thirty days later.'),
          required: z.int(),
          expected: z.number(),
          low: z.int(),
          high: z.int(),
          came: z.int().describe('How many were certified on that day.'),
          held: z.boolean().describe('It lay from low to high.'),
        }),
      )
      .describe('The last twelve that are over; months in which nobody was required are left out.'),
    held: z.int(),
  })
  .meta({ id: 'PastReadiness' })

const UUID = '[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}'
const listed = (item: string) => new RegExp(`^${item}(?:,${item}){0,19}$`)

export const WhatIfQuery = ForecastQuery.safeExtend({
  more: z
    .string()
    .regex(listed('\\d{4}-\\d{2}-\\d{2}/[A-Za-z0-9._-]{1,64}/\\d{1,3}'), {
      error: 'Give day/standard/slots, several with commas.',
    })
    .optional()
    .describe(
      'Slots more, as day/standard/slots: 2026-12-15/rifle-standing/8. Given to who lacks it, the first due first.',
    ),
  fewer: z
    .string()
    .regex(listed(`${UUID}/\\d{1,3}`), { error: 'Give testDayId/slots, several with commas.' })
    .optional()
    .describe('Slots fewer on a test day: its last bookings fall away.'),
  away: z
    .string()
    .regex(listed(UUID), { error: 'Give ids of graders, several with commas.' })
    .optional()
    .describe('Graders who are away: what is booked with them falls away.'),
  moved: z
    .string()
    .regex(new RegExp(`^${UUID}/\\d{4}-\\d{2}-\\d{2}$`), { error: 'Give ceremonyId/day.' })
    .optional()
    .describe(
      'A ceremony of the day asked about that is held on another day, at the same time of day: the answer is of that day.',
    ),
  plan: Uuid.optional().describe('A retest plan: what it would book beside what is booked.'),
})

export const WhatIf = z
  .object({
    before: ReadinessForecast,
    after: ReadinessForecast.describe('Of the day a ceremony is moved to, where one is.'),
    free: z.int().describe('Of the slots more, so many that nobody would take.'),
  })
  .meta({ id: 'WhatIf' })

export const ForecastDatesQuery = z.strictObject({
  unitId: Uuid.optional().describe('Left out: the unit of the account.'),
})

export const PastReadinessQuery = z.strictObject({ unitId: Uuid.optional(), certification: Code })

export type WhatIfQuery = z.infer<typeof WhatIfQuery>
export type WhatIf = z.infer<typeof WhatIf>
export type ForecastQuery = z.infer<typeof ForecastQuery>
export type ReadinessForecast = z.infer<typeof ReadinessForecast>
export type ForecastDates = z.infer<typeof ForecastDates>
export type PastReadiness = z.infer<typeof PastReadiness>
