import { z } from 'zod'
import { Code, Created, Day, Instant, PlainDate, Uuid } from '../common.ts'

const LONGEST_DAYS = 366

/** What is to be planned. The same asked again while nothing has changed is the same plan. */
export const PlanBody = z
  .strictObject({
    kind: z.enum(['retests', 'manning']),
    unitId: Uuid.describe('The unit with all below it.'),
    from: PlainDate,
    to: PlainDate.describe('Last day.'),
    renewals: z
      .boolean()
      .default(false)
      .describe('Retests: also tests of those whose certification lapses by the last day, or has lapsed.'),
    firstTests: z
      .boolean()
      .default(false)
      .describe('Retests: also tests of those who must hold a certification, have a sponsor and were not tested yet.'),
    moveBookings: z
      .boolean()
      .default(false)
      .describe('Retests: bookings there are may move to another slot; none is lost.'),
    seconds: z.int().min(1).max(120).default(20).describe('So long it may be solved.'),
  })
  .refine(({ from, to }) => from <= to, { error: 'The last day must not be before the first.', path: ['to'] })
  .refine(({ from, to }) => (Date.parse(to) - Date.parse(from)) / 86_400_000 <= LONGEST_DAYS, {
    error: `A plan spans at most ${LONGEST_DAYS} days.`,
    path: ['to'],
  })
  .meta({ id: 'PlanBody' })

export const PlanState = z.enum(['waiting', 'solving', 'ready', 'stopped', 'failed', 'stale'])

export const PlanLevel = z
  .object({
    name: z.string(),
    value: z.number(),
    bound: z.number().describe('The best still possible while earlier levels keep their values; equal when proved.'),
  })
  .meta({ id: 'PlanLevel' })

export const PlanProgress = z
  .object({
    ahead: z.int().describe('Plans that are solved before it; 0: it is being solved.'),
    seconds: z.number(),
    limit: z.number(),
    placed: z.int().nullable().describe('By the best answer so far; null: none is found yet.'),
  })
  .meta({ id: 'PlanProgress' })

/** A plan: how far it is, and how good. */
export const Plan = z
  .object({
    id: Uuid,
    kind: PlanBody.shape.kind,
    unitId: Uuid,
    from: Day,
    to: Day,
    options: z.object({ renewals: z.boolean(), firstTests: z.boolean(), moveBookings: z.boolean(), seconds: z.int() }),
    state: PlanState,
    changed: z.array(z.string()).describe('What it rests on and is not so any more; a sentence each.'),
    levels: z.array(PlanLevel),
    seconds: z.number().describe('So long it was solved.'),
    progress: PlanProgress.nullable(),
    failure: z.string().nullable(),
    askedAt: Instant,
    askedBy: z.string(),
    accepted: z.array(z.string()).describe('Pairs that were accepted and not undone.'),
  })
  .meta({ id: 'Plan' })

const Item = z.looseObject({ id: z.string() })
const Term = z.tuple([z.string(), z.number()])
const LinearLevel = z.object({
  name: z.string(),
  sense: z.enum(['max', 'min']),
  constant: z.number(),
  terms: z.array(Term).describe('Pair and coefficient; pairs that are not named add nothing.'),
})
const SquaresLevel = z.object({
  name: z.string(),
  sense: z.literal('min'),
  squares: z.array(z.object({ base: z.number(), pairs: z.array(z.string()) })),
})

export const PlanProblem = z
  .object({
    kind: PlanBody.shape.kind,
    wanted: z.array(Item),
    places: z.array(Item),
    pairs: z.array(z.object({ id: z.string(), wanted: z.string(), place: z.string() })),
    atMost: z.array(z.object({ pairs: z.array(z.string()), max: z.int() })),
    levels: z.array(z.union([LinearLevel, SquaresLevel])),
  })
  .describe(
    'An answer is a set of pairs: each wanted at most once, each place at most once, and every atMost holds. A level is worth its constant and the coefficients of the pairs taken, or the sum over groups of (base + pairs taken)². Levels count in their order; a later one never costs an earlier one anything.',
  )
  .meta({ id: 'PlanProblem' })

export const PlanAnswer = z
  .object({
    pairs: z.array(z.string()),
    unplaced: z.array(z.looseObject({ wanted: z.string(), reason: z.string() })),
    short: z.array(z.object({ posts: z.array(z.string()), soldiers: z.array(z.string()) })),
  })
  .meta({ id: 'PlanAnswer' })

const Change = z
  .object({
    change: z.enum(['more slots', 'test day', 'another grader', 'sponsor there']),
    places: z.int().describe('So many more tests it would place at most.'),
    testDayId: Uuid.nullable(),
    on: Day.nullable(),
    standard: Code.nullable(),
    by: Day.nullable(),
    sponsorName: z.string().nullable(),
  })
  .meta({ id: 'PlanChange' })

const PlannedTest = z.object({
  wanted: z.string(),
  candidateId: Uuid,
  candidateName: z.string(),
  unitName: z.string(),
  standard: Code,
  kind: z.enum(['retest', 'renewal', 'first test', 'booked']),
  due: Day.nullable(),
})

/** A retest plan as people read it. */
export const RetestPlanRows = z
  .object({
    open: z.int().describe('Tests to place.'),
    inTime: z.int().describe('Of these, placed by their due day.'),
    rows: z.array(
      PlannedTest.extend({
        pair: z.string(),
        slotId: Uuid,
        testDayId: Uuid,
        on: Day,
        place: z.string(),
        startsAt: Instant,
        endsAt: Instant,
        graderName: z.string().nullable(),
        sponsorName: z.string().nullable(),
        daysLate: z.int(),
        fills: z.object({ before: Day, chance: z.number(), basis: z.enum(['model', 'baseline']) }).nullable(),
        movesFrom: z.boolean().describe('The candidate is booked in another slot, and moves.'),
        state: z.enum(['proposed', 'kept', 'accepted']),
      }),
    ),
    unplaced: z.array(
      PlannedTest.extend({ reason: z.string(), detail: z.string().describe('The reason in a sentence.') }),
    ),
    bestChange: Change.nullable(),
  })
  .meta({ id: 'RetestPlanRows' })

export const AcceptBody = z
  .strictObject({ pairs: z.union([z.literal('all'), z.array(z.string().max(20)).min(1).max(5000)]) })
  .meta({ id: 'PlanAcceptBody' })

export const Accepted = z
  .object({ booked: z.int(), moved: z.int(), named: z.int().optional().describe('Manning: soldiers named.') })
  .meta({ id: 'PlanAccepted' })
export const Undone = z
  .object({ undone: z.int(), left: z.int().describe('Changed since, and so left as they are.') })
  .meta({ id: 'PlanUndone' })

export const AskedPlan = Created

export type PlanBody = z.infer<typeof PlanBody>
export type Plan = z.infer<typeof Plan>
export type PlanProgress = z.infer<typeof PlanProgress>
export type RetestPlanRows = z.infer<typeof RetestPlanRows>
export type AcceptBody = z.infer<typeof AcceptBody>
export type PlanProblem = z.infer<typeof PlanProblem>
export type PlanAnswer = z.infer<typeof PlanAnswer>
