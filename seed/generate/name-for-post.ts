import type { PlainDate } from '../../server/domain/calendar/plain-date.ts'
import type { StatusWord } from '../../server/domain/certification/types.ts'
import type { CeremonyPattern } from '../catalogue/ceremonies.ts'
import { earlierDay } from './day-order.ts'
import { companyOf } from './establishment.ts'
import { type Person, placeOn } from './program/person.ts'
import type { Program } from './program/program.ts'
import { standingOn } from './program/training.ts'
import type { Random } from './random.ts'

/** A ceremony on a day, planned some time before it, manned by a unit. */
export interface Occasion {
  readonly day: PlainDate
  readonly plannedOn: PlainDate
  readonly unitKey: string
  /** Who is named on which day already; nobody stands at two places. */
  readonly taken: Set<string>
}

type Post = CeremonyPattern['posts'][number]

/** How a post is dealt with: named to who can stand, left open for now, or named to somebody who will not do. */
const NAMED = 0.78
const OPEN = 0.12

/** Whom a post is named to, by roster number; null leaves it open. */
export function nameFor(program: Program, random: Random, occasion: Occasion, post: Post): string | null {
  const draw = random.next()
  if (draw >= NAMED && draw < NAMED + OPEN) return null
  const there = whoIsThere(program, occasion)
  const able = there.filter((one) => isAble(program, occasion, post, one))
  const choices = draw < NAMED ? able : random.pick([[], ...unfit(program, occasion, post, there)])
  if (choices.length === 0) return null
  const { key } = random.pick(choices)
  occasion.taken.add(`${key} ${occasion.day}`)
  return key
}

/** Who is on the roster when a ceremony is planned, of the unit that mans it, and not named that day. */
export const whoIsThere = ({ people }: Program, { day, plannedOn, unitKey, taken }: Occasion): Person[] =>
  people.filter((one) => {
    const place = placeOn(one, plannedOn)
    const isOfUnit = place !== null && (unitKey === 'battalion' || companyOf(place.unitId) === unitKey)
    return isOfUnit && !taken.has(`${one.key} ${day}`)
  })

/** Whether somebody can stand at a post that day, as far as is known today. */
export function isAble(
  program: Program,
  occasion: Occasion,
  post: Pick<Post, 'certification' | 'grades'>,
  person: Person,
): boolean {
  const { certification, grades } = post
  const grade = gradeThen(program, occasion, person)
  return (
    grade !== null && grades!.includes(grade) && statusOf(program, person, certification, occasion.day) === 'certified'
  )
}

/** The grade on the day of the ceremony, as known today; null for who is not there any more. */
const gradeThen = ({ today }: Program, { day }: Occasion, person: Person): string | null =>
  placeOn(person, earlierDay(day, today))?.grade ?? null

/** Who could be named by mistake, by the mistake; lists are not empty. */
function unfit(
  program: Program,
  occasion: Occasion,
  { certification, grades }: Post,
  there: readonly Person[],
): Person[][] {
  const status = (person: Person, day = occasion.day) => statusOf(program, person, certification, day)
  const grade = (person: Person) => gradeThen(program, occasion, person)
  const ofGrade = there.filter((one) => grades!.includes(grade(one) ?? ''))
  const lists = [
    there.filter((one) => grade(one) === null && grades!.includes(placeOn(one, occasion.plannedOn)!.grade)),
    ofGrade.filter((one) => status(one) === 'suspended'),
    ofGrade.filter((one) => status(one) !== 'certified' && status(one, program.today) === 'certified'),
    ofGrade.filter((one) => status(one) === 'retest due'),
    there.filter((one) => !grades!.includes(grade(one) ?? '') && status(one) === 'certified'),
    certification === 'saber' ? there.filter((one) => grade(one) === 'SFC') : [],
  ]
  return lists.filter((list) => list.length > 0)
}

function statusOf({ trainings }: Program, person: Person, certification: string, day: PlainDate): StatusWord {
  const training = (trainings.get(person) ?? []).find((one) => one.certification.code === certification)
  return training ? standingOn(training, day).status : 'no test yet'
}
