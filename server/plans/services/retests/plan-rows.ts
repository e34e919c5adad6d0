import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import type { RetestPlanRows } from '../../../contract/plans/plans.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { sponsorOn } from '../../../domain/booking/sponsor-on.ts'
import { daysBetween } from '../../../domain/calendar/plain-date.ts'
import type { PlanItem, PlanProblem } from '../../../domain/plans/problem.ts'
import type { Change, Unplaced } from '../../../domain/plans/retests/unplaced.ts'
import { notFound } from '../../../errors.ts'
import { readAnswer, readProblem, type StoredPlan } from '../../db/plans.db.ts'
import { listSponsorships, type PersonRow, readPeople, readTestDayPlaces } from '../../db/retest-facts.db.ts'
import { notYet, openPlan } from '../get-plan.ts'
import { formatReason } from './format-reason.ts'

/** A retest plan with names: what goes where, what is not placed and why, and the one change that would place most. */
export async function getRetestRows(context: Context, actor: Actor, id: string): Promise<RetestPlanRows> {
  const plan = await openPlan(context, actor, id)
  if (plan.kind !== 'retests') throw notFound('retest plan')
  const problem = await readProblem(context.db, id)
  const answer = await readAnswer(context.db, id)
  if (!problem || !answer) throw notYet()
  const names = await namesFor(context, plan, problem)
  const { wanted, places, pairs } = problem
  const tests = new Map(wanted.map((one) => [one.id, one]))
  const slots = new Map(places.map((one) => [one.id, one]))
  const today = await todayOf(context, plan.unitId)
  const chosen = new Set(answer.pairs)
  const rows = pairs
    .filter(({ id: pair }) => chosen.has(pair))
    .map((pair) => rowOf(plan, pair.id, tests.get(pair.wanted)!, slots.get(pair.place)!, names))
    .sort((a, b) =>
      a.startsAt < b.startsAt ? -1 : a.startsAt > b.startsAt ? 1 : a.candidateName < b.candidateName ? -1 : 1,
    )
  const unplaced = (answer.unplaced as unknown as Unplaced[]).map((one) => {
    const test = tests.get(one.wanted)!
    const takenBy = one.takenBy.map((other) => testOf(tests.get(other)!, names))
    const sponsors = one.sponsorIds.map((sponsor) => names.people.get(sponsor)?.name ?? 'somebody')
    return { ...testOf(test, names), reason: one.reason, detail: formatReason(one, takenBy, sponsors) }
  })
  return {
    open: wanted.length,
    inTime: rows.filter(({ daysLate, due }) => daysLate === 0 || (due !== null && due < today)).length,
    rows,
    unplaced: unplaced.sort((a, b) => ((a.due ?? '9999') < (b.due ?? '9999') ? -1 : 1)),
    bestChange: formatChange(answer.bestChange as Change | null | undefined, names),
  }
}

interface Names {
  readonly people: ReadonlyMap<string, PersonRow>
  readonly places: ReadonlyMap<string, string>
  readonly sponsorships: ReadonlyMap<string, Parameters<typeof sponsorOn>[0]>
}

async function namesFor(context: Context, plan: StoredPlan, { wanted, places }: PlanProblem): Promise<Names> {
  const candidates = [...new Set(wanted.map(({ candidateId }) => String(candidateId)))]
  const graders = places.flatMap(({ graderId }) => (graderId === null ? [] : [String(graderId)]))
  const days = [...new Set(places.map(({ testDayId }) => String(testDayId)))]
  const sponsorships = await listSponsorships(context.db, candidates)
  const sponsors = [...sponsorships.values()].flat().map(({ sponsorId }) => sponsorId)
  const ids = [...new Set([...candidates, ...graders, ...sponsors])]
  return {
    people: await readPeople(context.db, ids, await todayOf(context, plan.unitId)),
    places: await readTestDayPlaces(context.db, days),
    sponsorships,
  }
}

type Row = RetestPlanRows['rows'][number]

function testOf({ id, candidateId, standard, kind, due }: PlanItem, { people }: Names) {
  const person = people.get(String(candidateId))
  return {
    wanted: id,
    candidateId: String(candidateId),
    candidateName: person?.name ?? '',
    unitName: person?.unitName ?? '',
    standard: String(standard),
    kind: kind as Row['kind'],
    due: due as string | null,
  }
}

function rowOf(plan: StoredPlan, pair: string, test: PlanItem, slot: PlanItem, names: Names): Row {
  const day = String(slot.day)
  const due = test.due as string | null
  const sponsor = sponsorOn(names.sponsorships.get(String(test.candidateId)) ?? [], day)
  const nameOf = (id: string | null) => (id === null ? null : (names.people.get(id)?.name ?? null))
  const fills = test.fills as Row['fills']
  const isKept = test.bookingId !== null && test.bookedSlotId === slot.slotId
  return {
    ...testOf(test, names),
    pair,
    slotId: String(slot.slotId),
    testDayId: String(slot.testDayId),
    on: day,
    place: names.places.get(String(slot.testDayId)) ?? '',
    startsAt: String(slot.startsAt),
    endsAt: String(slot.endsAt),
    graderName: nameOf(slot.graderId as string | null),
    sponsorName: nameOf(sponsor),
    daysLate: due === null ? 0 : Math.max(0, daysBetween(due, day)),
    fills: fills && day < fills.before ? fills : null,
    movesFrom: test.bookingId !== null && !isKept,
    state: isKept ? 'kept' : plan.accepted.includes(pair) ? 'accepted' : 'proposed',
  }
}

function formatChange(change: Change | null | undefined, { people }: Names): RetestPlanRows['bestChange'] {
  if (!change) return null
  const nothing = { testDayId: null, on: null, standard: null, by: null, sponsorName: null }
  const { places } = change
  switch (change.change) {
    case 'more slots':
      return { ...nothing, change: 'more slots', places, testDayId: change.testDayId, on: change.on }
    case 'test day':
      return { ...nothing, change: 'test day', places, standard: change.standard, by: change.by }
    case 'sponsor there':
      return {
        ...nothing,
        change: 'sponsor there',
        places,
        sponsorName: people.get(change.sponsorId)?.name ?? 'somebody',
      }
    default:
      return { ...nothing, change: 'another grader', places }
  }
}
