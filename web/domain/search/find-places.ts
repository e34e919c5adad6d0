import { can } from '#access/permissions.ts'
import type { Role } from '../accounts/roles.ts'
import { PLACES, type Place } from './places.ts'
import { takeDay } from './take-day.ts'

export interface FoundPlace {
  readonly title: string
  readonly to: string
}

/** Words that say nothing of what is looked for. */
const FILLERS = new Set('a an and at do for how i in is my of on or the to we will with'.split(' '))

const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean)

const isMeant = ({ title, also = '' }: Place, asked: readonly string[]): boolean => {
  const words = wordsOf(`${title} ${also}`)
  return asked.every((part) => words.some((word) => word.startsWith(part)))
}

const MOST = 6

/**
 * The pages, and what is done on them, that somebody may mean: every word that was typed begins a word of theirs. A day in the
 * text ("31 Dec") leads to the page as of that day, where it has one.
 * In: what was typed, the roles that ask, today as YYYY-MM-DD. Out: at most six, in the order of the list.
 */
export function findPlaces(text: string, roles: readonly Role[], today: string): FoundPlace[] {
  const { day, rest } = takeDay(text, today)
  const asked = wordsOf(rest).filter((word) => !FILLERS.has(word))
  if (asked.length === 0) return []
  return PLACES.filter(({ permission }) => !permission || can({ roles }, permission))
    .filter((place) => isMeant(place, asked))
    .slice(0, MOST)
    .map(({ title, to, dayIn }) => {
      if (!day || !dayIn) return { title, to }
      return { title: `${title}, as of ${day.said}`, to: `${to}?${new URLSearchParams({ [dayIn]: day.iso })}` }
    })
}
