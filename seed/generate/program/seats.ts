import type { PlainDate } from '../../../server/domain/calendar/plain-date.ts'
import type { Flaw } from './flaws.ts'
import { hasCoached, type Person } from './person.ts'
import { mayGrade, type Program } from './program.ts'
import type { Training } from './training.ts'

/** Somebody who wants to be tested. */
export interface Wish {
  readonly training: Training
  readonly standard: string
  readonly sponsor: Person
  /** What will be wrong with it, where that is known beforehand. */
  readonly flaw: Flaw | null
}

/** A wish with a grader and a time: minutes after midnight. */
export interface Seat extends Wish {
  readonly grader: Person
  readonly startsAt: number
}

/** Nine tests a lane, three quarters of an hour each, with an hour at noon. */
const STARTS = [0, 45, 90, 135, 180, 285, 330, 375, 420].map((minutes) => 8 * 60 + minutes)

/**
 * Gives tests their time and grader, first come first served: a grader who may grade it and never coached the
 * candidate, at a time when candidate and sponsor are free. Who finds no place waits for another day.
 */
export function seat(program: Program, day: PlainDate, wishes: readonly Wish[], graders: readonly Person[]): Seat[] {
  const taken = new Set<string>()
  const isFree = (person: Person, startsAt: number) => !taken.has(`${person.key} ${startsAt}`)
  const seats = wishes.flatMap((wish): Seat[] => {
    const candidate = wish.training.person
    const able = graders.filter(
      (one) => mayGrade(program, one, wish.standard, day) && !hasCoached(one, candidate, day) && one !== wish.sponsor,
    )
    for (const startsAt of STARTS) {
      if (!isFree(candidate, startsAt) || !isFree(wish.sponsor, startsAt)) continue
      const grader = able.find((one) => isFree(one, startsAt))
      if (!grader) continue
      for (const one of [candidate, wish.sponsor, grader]) taken.add(`${one.key} ${startsAt}`)
      return [{ ...wish, grader, startsAt }]
    }
    return []
  })
  return seats.sort((one, other) => one.startsAt - other.startsAt)
}
