import type { PlanProblem } from '../../../server/domain/plans/problem.ts'
import { seeded } from './random-problem.ts'

interface Size {
  readonly tests: number
  readonly days: number
  /** Of a day, four at a time. */
  readonly slots: number
  readonly graders: number
  readonly sponsors: number
}

/** A problem as a unit has it: tests with due days, candidates of sponsors who are sometimes away, slots four at a time. */
export function retestSized(seed: number, { tests, days, slots, graders, sponsors }: Size): PlanProblem {
  const next = seeded(seed)
  const below = (count: number) => Math.floor(next() * count)
  const wanted = Array.from({ length: tests }, (_, at) => ({
    id: `test ${String(at).padStart(4, '0')}`,
    soldier: Math.floor(at * 0.85),
    sponsor: below(sponsors),
    due: below(90) - 10,
    earliest: below(20) - 10,
    chance: below(101) / 100,
    neededBy: next() < 0.2 ? below(90) : -1,
  }))
  const places = Array.from({ length: days * slots }, (_, at) => ({
    id: `slot ${String(at).padStart(4, '0')}`,
    day: Math.floor((Math.floor(at / slots) * 90) / days),
    time: Math.floor(at / 4),
    grader: (Math.floor(at / slots) * 5 + (at % 4)) % graders,
  }))
  const away = new Set(Array.from({ length: sponsors * 3 }, () => `${below(sponsors)} ${below(days)}`))
  const rows = wanted.flatMap((test) =>
    places
      .filter(
        (slot, at) =>
          slot.day >= test.earliest &&
          !away.has(`${test.sponsor} ${Math.floor(at / slots)}`) &&
          (slot.grader + test.soldier) % graders !== 0,
      )
      .map((slot) => ({ test, slot })),
  )
  const pairs = rows.map(({ test, slot }, at) => ({ id: String(at), wanted: test.id, place: slot.id }))
  const presence = new Map<string, string[]>()
  for (const [at, { test, slot }] of rows.entries()) {
    for (const who of [`sponsor ${test.sponsor}`, `soldier ${test.soldier}`]) {
      const key = `${who} ${slot.time}`
      const list = presence.get(key) ?? []
      list.push(pairs[at]!.id)
      presence.set(key, list)
    }
  }
  const terms = (value: (row: (typeof rows)[number]) => number) =>
    rows.map((row, at) => [pairs[at]!.id, value(row)] as const).filter(([, coefficient]) => coefficient !== 0)
  return {
    kind: 'retests',
    wanted,
    places,
    pairs,
    atMost: [...presence.values()].filter((list) => list.length > 1).map((list) => ({ pairs: list, max: 1 })),
    levels: [
      {
        name: 'by due day',
        sense: 'max',
        constant: 0,
        terms: terms(({ test, slot }) => (test.due < 0 || slot.day <= test.due ? 1 : 0)),
      },
      { name: 'placed', sense: 'max', constant: 0, terms: terms(() => 1) },
      {
        name: 'posts filled',
        sense: 'max',
        constant: 0,
        terms: terms(({ test, slot }) => (test.neededBy > slot.day ? test.chance : 0)),
      },
      {
        name: 'days late',
        sense: 'min',
        constant: 0,
        terms: terms(({ test, slot }) => Math.max(0, slot.day - test.due)),
      },
      { name: 'early', sense: 'min', constant: 0, terms: terms(({ slot }) => slot.day) },
    ],
  }
}
