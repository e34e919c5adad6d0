import { setImmediate } from 'node:timers/promises'
import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import { inTransaction } from '../../../db/transaction.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import type { Scope } from '../../../domain/access/scope.ts'
import type { Prospect, Stretch } from '../../../domain/booking/types.ts'
import { judgeAnswer } from '../../../domain/plans/judge-answer.ts'
import type { PlanProblem } from '../../../domain/plans/problem.ts'
import { choicesOf } from '../../../domain/plans/retests/choices.ts'
import { inPlanOrder, retestProblem, type WantedChoices } from '../../../domain/plans/retests/retest-problem.ts'
import type { OpenSlot, WantedKind, WantedTest } from '../../../domain/plans/retests/types.ts'
import { readReadiness } from '../../../readiness/db/readiness.db.ts'
import { listRetests } from '../../../readiness/db/retests.db.ts'
import { gatherProspects } from '../../../test-days/services/bookings/gather-prospects.ts'
import type { PlanAsked } from '../../db/plans.db.ts'
import {
  type CoachingRow,
  listCoaching,
  listMissingTests,
  listPlanSlots,
  type PlanSlotRow,
} from '../../db/retest-facts.db.ts'
import { findFills } from './find-fills.ts'

/** Pages of this size are read until there are no more. */
const EVERYTHING = 20_000

/** What a retest plan rests on, and the problem it comes to. */
export interface GatheredRetests {
  readonly problem: PlanProblem
  /** In the order of the problem. */
  readonly tests: readonly WantedChoices[]
}

interface Need {
  readonly candidateId: string
  readonly standard: string
  readonly kind: WantedKind
  readonly due: string | null
  readonly earliest: string | null
  readonly needsReview: boolean
}

/** Gathers the tests and slots of a period, and states the problem. Whoever asks gives no more than the scope. */
export async function gatherRetests(
  context: Context,
  actor: Actor,
  scope: Scope,
  asked: PlanAsked,
): Promise<GatheredRetests> {
  const now = context.clock()
  const today = await todayOf(context, asked.unitId)
  const { unitId, from, to, options } = asked
  const facts = await inTransaction(context.db, async (tx) => {
    const catalogue = await context.catalogue.current(tx)
    const rows = await listPlanSlots(tx, { unitId, from, to, now, today })
    const coaching = await listCoaching(tx, { from, to })
    const filter = { day: today, unitId }
    const retests = await listRetests(tx, scope, filter, { limit: EVERYTHING, after: null })
    let missing: Awaited<ReturnType<typeof listMissingTests>> = []
    if (options.renewals || options.firstTests) {
      const page = { limit: EVERYTHING, sort: 'name', standing: undefined, today, after: null, units: null } as const
      const { items } = await readReadiness(tx, scope, filter, page)
      const required = items.filter((item) => item.required)
      missing = await listMissingTests(tx, required, { ...options, today, to })
    }
    const needs = needsOf(retests, missing)
    const movable = options.moveBookings ? rows.filter(({ mayMove }) => mayMove) : []
    const wanted = wantedOf(needs, movable)
    const graderIds = [...new Set(rows.flatMap(({ graderId }) => graderId ?? []))]
    const prospects = await gatherProspects(tx, catalogue, wanted.map(toWanted), { from, graderIds, now })
    return { rows, coaching, wanted, prospects }
  })
  const open = facts.wanted
    .map((one, at) => ({ ...one, prospect: facts.prospects[at]! }))
    .filter(({ prospect, standard, booked }) => booked !== null || !isBooked(prospect, standard))
  const fills = await findFills(context, actor, scope, open, { from, today, unitId })
  const tests = open.map((one, at): WantedTest => ({ ...one, fills: fills[at]! }))
  return state(tests, facts, { from, today })
}

const toWanted = ({ candidateId, standard, booked }: Omit<WantedTest, 'fills' | 'prospect'>) => ({
  candidateId,
  standard,
  movedId: booked?.bookingId ?? null,
})

const isBooked = ({ bookings }: Prospect, standard: string): boolean =>
  bookings.some((one) => one.open && one.standard === standard)

/** One test a candidate and standard, whichever certifications ask for it: the earliest due day, the latest first day. */
function needsOf(
  retests: Awaited<ReturnType<typeof listRetests>>,
  missing: Awaited<ReturnType<typeof listMissingTests>>,
): Need[] {
  const needs = new Map<string, Need>()
  for (const { soldierId, standard, due, earliest, needsReview } of retests) {
    const key = `${soldierId} ${standard}`
    const known = needs.get(key)
    needs.set(key, {
      candidateId: soldierId,
      standard,
      kind: 'retest',
      due: known?.due && known.due < due ? known.due : due,
      earliest: known?.earliest && known.earliest > earliest ? known.earliest : earliest,
      needsReview: needsReview || (known?.needsReview ?? false),
    })
  }
  for (const { soldierId, standard, validThrough } of missing) {
    const key = `${soldierId} ${standard}`
    if (needs.has(key)) continue
    const kind = validThrough === null ? 'first test' : 'renewal'
    needs.set(key, { candidateId: soldierId, standard, kind, due: validThrough, earliest: null, needsReview: false })
  }
  return [...needs.values()]
}

/** What is needed, and what is booked and may move. */
function wantedOf(needs: readonly Need[], movable: readonly PlanSlotRow[]): Omit<WantedTest, 'fills' | 'prospect'>[] {
  const booked = new Map(movable.map((row) => [`${row.candidateId} ${row.standard}`, row]))
  const known = new Set(needs.map(({ candidateId, standard }) => `${candidateId} ${standard}`))
  const others = movable.filter(({ candidateId, standard }) => !known.has(`${candidateId} ${standard}`))
  return [
    ...needs.map((need) => {
      const row = booked.get(`${need.candidateId} ${need.standard}`)
      if (!row) return { ...need, booked: null }
      return { ...need, kind: 'booked' as const, booked: { bookingId: row.bookingId!, slotId: row.slotId } }
    }),
    ...others.map((row) => ({
      candidateId: row.candidateId!,
      standard: row.standard!,
      kind: 'booked' as const,
      due: null,
      earliest: null,
      needsReview: false,
      booked: { bookingId: row.bookingId!, slotId: row.slotId },
    })),
  ]
}

interface Facts {
  readonly rows: readonly PlanSlotRow[]
  readonly coaching: readonly CoachingRow[]
}

/**
 * States the problem. A booking moves only where its own slot is one it could be given, beside all others: what could not
 * stay stays out of the plan, where it is.
 */
async function state(
  tests: readonly WantedTest[],
  facts: Facts,
  when: { from: string; today: string },
): Promise<GatheredRetests> {
  let fixed = new Set<string>()
  for (;;) {
    const gathered = await stateWith(tests, facts, fixed, when)
    const lost = bookingsThatCannotStay(gathered)
    if (lost.length === 0) return gathered
    fixed = new Set([...fixed, ...lost])
  }
}

async function stateWith(
  tests: readonly WantedTest[],
  { rows, coaching }: Facts,
  fixed: ReadonlySet<string>,
  when: { from: string; today: string },
): Promise<GatheredRetests> {
  const moving = tests.filter(({ booked }) => booked === null || !fixed.has(booked.bookingId))
  const movable = new Set(moving.flatMap(({ booked }) => booked?.bookingId ?? []))
  const slots = rows.filter(({ bookingId }) => bookingId === null || movable.has(bookingId)).map(toSlot)
  const staying = new Map<string, Stretch[]>()
  for (const { sponsorId, bookingId, from, to } of coaching) {
    if (!movable.has(bookingId)) staying.set(sponsorId, [...(staying.get(sponsorId) ?? []), { from, to }])
  }
  const wanted: WantedChoices[] = []
  for (const test of moving) {
    const own = { ...test, prospect: without(test.prospect, movable) }
    wanted.push({ test: own, choices: choicesOf(own, slots, { today: when.today, coaching: staying }) })
    await setImmediate()
  }
  const ordered = inPlanOrder(wanted)
  return { tests: ordered, problem: retestProblem(ordered, slots, when) }
}

const toSlot = ({ slotId, testDayId, day, graderId, startsAt, endsAt }: PlanSlotRow): OpenSlot => ({
  slotId,
  testDayId,
  day,
  graderId,
  time: { from: startsAt.getTime(), to: endsAt.getTime() },
})

/** What is known of a candidate, without the bookings that may move. */
function without(prospect: Prospect, movable: ReadonlySet<string>): Prospect {
  if (movable.size === 0) return prospect
  const engagements = [...prospect.engagements].map(
    ([id, list]) => [id, list.filter(({ bookingId }) => bookingId === null || !movable.has(bookingId))] as const,
  )
  const bookings = prospect.bookings.filter(({ id }) => !movable.has(id))
  return { ...prospect, bookings, engagements: new Map(engagements) }
}

function bookingsThatCannotStay({ problem, tests }: GatheredRetests): string[] {
  const placeOf = new Map(problem.places.map(({ id, slotId }) => [slotId as string, id]))
  const staying = tests.flatMap(({ test: { booked } }, at) => {
    if (booked === null) return []
    const wanted = problem.wanted[at]!.id
    const place = placeOf.get(booked.slotId)
    const pair = problem.pairs.find((one) => one.wanted === wanted && one.place === place)
    return [{ bookingId: booked.bookingId, pair: pair?.id ?? null }]
  })
  const own = staying.flatMap(({ pair }) => pair ?? [])
  if (own.length === staying.length && judgeAnswer(problem, own).broken.length === 0) return []
  const inBroken = new Set(
    problem.atMost
      .map((set) => ({ taken: own.filter((id) => set.pairs.includes(id)), max: set.max }))
      .filter(({ taken, max }) => taken.length > max)
      .flatMap(({ taken }) => taken),
  )
  return staying.filter(({ pair }) => pair === null || inBroken.has(pair)).map(({ bookingId }) => bookingId)
}
