import { addDays, daysBetween, type PlainDate } from '../../server/domain/calendar/plain-date.ts'
import type { Step } from './career.ts'
import { type Billet, companyOf, type Duty, type Grade, UNITS } from './establishment.ts'
import type { Random } from './random.ts'

/** The grade below, and how often a soldier of a grade rose to it within the record. Invented shares. */
const RISE: Partial<Record<Grade, readonly [from: Grade, share: number]>> = {
  PFC: ['PVT', 0.6],
  SPC: ['PFC', 0.45],
  CPL: ['SPC', 0.5],
  SGT: ['CPL', 0.25],
  SSG: ['SGT', 0.2],
  SFC: ['SSG', 0.2],
  '1LT': ['2LT', 0.6],
  CPT: ['1LT', 0.15],
}

const MOVED = 0.13
const AWAY = 0.03
const PLATOONS = UNITS.filter((unit) => unit.kind === 'platoon').map((unit) => unit.key)
/** Leaders do not move or go away while they lead, and have led from this grade up. */
const LEADS_FROM: Partial<Record<Duty, Grade>> = { 'platoon leader': '2LT', 'platoon sergeant': 'SSG' }

/** A random day in a span, or null when the span is empty. */
export function dayWithin(random: Random, first: PlainDate, last: PlainDate): PlainDate | null {
  return first > last ? null : addDays(first, random.integer(0, daysBetween(first, last)))
}

interface Turn {
  on: PlainDate
  before: { grade?: Grade; unitKey?: string }
}

function promotions(random: Random, billet: Billet, first: PlainDate, last: PlainDate): Turn[] {
  const rise = RISE[billet.grade]
  if (!rise || billet.grade === LEADS_FROM[billet.duty] || !random.chance(rise[1])) return []
  const on = dayWithin(random, first, last)
  if (!on) return []
  return [
    ...promotions(random, { ...billet, grade: rise[0] }, first, addDays(on, -240)),
    { on, before: { grade: rise[0] } },
  ]
}

function move(random: Random, billet: Billet, first: PlainDate, last: PlainDate): Turn[] {
  if (!PLATOONS.includes(billet.unitKey) || LEADS_FROM[billet.duty] || !random.chance(MOVED)) return []
  const on = dayWithin(random, first, last)
  const sameCompany = random.chance(0.7)
  const from = PLATOONS.filter(
    (key) => key !== billet.unitKey && (companyOf(key) === companyOf(billet.unitKey)) === sameCompany,
  )
  return on ? [{ on, before: { unitKey: random.pick(from) } }] : []
}

/** Away for a course or with another unit, and back; null where another step lies in that time. */
function absence(random: Random, steps: readonly Step[], first: PlainDate, last: PlainDate): [Step, Step] | null {
  const from = dayWithin(random, first, addDays(last, -160))
  if (!from) return null
  const back = addDays(from, random.integer(45, 150))
  if (steps.some((step) => step.from >= addDays(from, -7) && step.from <= addDays(back, 7))) return null
  const before = steps.findLast((step) => step.from < from)
  if (!before || 'left' in before) return null
  return [
    { from, left: random.chance(0.7) ? 'other' : 'transferred' },
    { ...before, from: back },
  ]
}

/**
 * How somebody came to a billet: from the day of joining to the day the billet is held through, with promotions,
 * a move between platoons or an absence on the way; these lie between `opening` and `through`.
 */
export function pastSteps(
  random: Random,
  billet: Billet,
  span: { joined: PlainDate; opening: PlainDate; through: PlainDate },
): Step[] {
  const [, first] = [addDays(span.joined, 75), span.opening].sort() as [PlainDate, PlainDate]
  const last = addDays(span.through, -20)
  const turns = [...promotions(random, billet, first, last), ...move(random, billet, first, last)]
  const steps: Step[] = []
  let state = { grade: billet.grade, unitKey: billet.unitKey }
  for (const { on, before } of turns.sort((one, other) => (one.on < other.on ? 1 : -1))) {
    if (steps[0]?.from !== on) steps.unshift({ from: on, ...state })
    state = { ...state, ...before }
  }
  steps.unshift({ from: span.joined, ...state })
  const away = !LEADS_FROM[billet.duty] && random.chance(AWAY) ? absence(random, steps, first, last) : null
  return away ? [...steps, ...away].sort((one, other) => (one.from < other.from ? -1 : 1)) : steps
}
