import type { CeremonyBody } from '../../server/contract/ceremonies/ceremonies.ts'
import { addDays } from '../../server/domain/calendar/plain-date.ts'
import type { PlannedEvent } from './plan.ts'
import { type Person, placeOn } from './program/person.ts'
import { morningOf, type Program } from './program/program.ts'
import type { Random } from './random.ts'

const IN_THE_RANKS = ['PVT', 'PFC', 'SPC', 'CPL']
/** Of most in the ranks the height is known; in centimetres. */
const MEASURED = 0.92
const HEIGHT = { mean: 177, deviation: 7, least: 155, most: 204 }
/** So many who are named to a ceremony to come will be away that day, and so many others at some time. */
const AWAY_FROM_CEREMONIES = 4
const AWAY_OTHERWISE = 12
const KINDS = ['leave', 'leave', 'course', 'duty elsewhere', 'not available'] as const

/** Who can be called on: heights of those in the ranks, and absences, some over a ceremony its people are named to. */
export function planAvailability(
  program: Program,
  random: Random,
  ceremonies: readonly { readonly body: CeremonyBody }[],
): PlannedEvent[] {
  const there = program.people.filter((one) => placeOn(one, program.today) !== null)
  return [...heights(program, random, there), ...absences(program, random, there, ceremonies)]
}

function heights(program: Program, random: Random, there: readonly Person[]): PlannedEvent[] {
  const at = morningOf(program, addDays(program.today, -40))
  return there
    .filter(
      (one) => IN_THE_RANKS.includes(placeOn(one, program.today)!.grade) && placeOn(one, addDays(program.today, -40)),
    )
    .filter(() => random.chance(MEASURED))
    .map(({ key }): PlannedEvent => {
      const height = Math.round(random.normal(HEIGHT.mean, HEIGHT.deviation))
      const heightCm = Math.min(HEIGHT.most, Math.max(HEIGHT.least, height))
      return { kind: 'height', at, soldier: key, heightCm }
    })
}

function absences(
  program: Program,
  random: Random,
  there: readonly Person[],
  ceremonies: readonly { readonly body: CeremonyBody }[],
): PlannedEvent[] {
  const present = new Set(there.map(({ key }) => key))
  const ahead = ceremonies
    .map(({ body }) => ({
      day: body.startsAt.slice(0, 10),
      named: body.posts.flatMap(({ soldierId }) => soldierId ?? []),
    }))
    .filter(({ day }) => day > program.today)
    .map(({ day, named }) => ({ day, named: named.filter((key) => present.has(key)) }))
    .filter(({ named }) => named.length > 0)
  const away = new Map<string, string>()
  for (let left = AWAY_FROM_CEREMONIES; left > 0 && ahead.length > 0; left -= 1) {
    const { day, named } = random.pick(ahead)
    away.set(random.pick(named), addDays(day, -random.integer(0, 4)))
  }
  for (const one of random.shuffle(there).slice(0, AWAY_OTHERWISE)) {
    if (!away.has(one.key)) away.set(one.key, addDays(program.today, random.integer(-10, 40)))
  }
  return [...away].map(([soldier, from]): PlannedEvent => {
    const through = addDays(from, random.integer(5, 16))
    const body = { from, through, kind: random.pick(KINDS) }
    return { kind: 'absence', at: morningOf(program, addDays(program.today, -random.integer(1, 9))), soldier, body }
  })
}
