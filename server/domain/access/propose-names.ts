import { nameSkeleton } from './name-skeleton.ts'

interface Named {
  readonly familyName: string
  readonly givenName: string
}

/** What is left free of the longest name an account may have, for a number behind it. */
const LONGEST = 90

/**
 * Names to sign in with, made of people's own: "Ashdown, Mirela" is ashdown.mirela; where that is taken, or looks like one
 * that is, a number follows. In: the people, in order, and the names there are. Out: one for each, which look like none of
 * those and not like each other.
 */
export function proposeNames(people: readonly Named[], taken: readonly string[]): string[] {
  const skeletons = new Set(taken.map(nameSkeleton))
  return people.map(({ familyName, givenName }) => {
    const plain = [plainLetters(familyName), plainLetters(givenName)].filter(Boolean).join('.') || 'soldier'
    const name = firstFree(plain.slice(0, LONGEST), skeletons)
    skeletons.add(nameSkeleton(name))
    return name
  })
}

/** Small letters and digits without accents, quick to type on a phone. */
const plainLetters = (name: string): string =>
  name
    .normalize('NFKD')
    .replaceAll(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase()

function firstFree(name: string, skeletons: ReadonlySet<string>): string {
  let free = name
  for (let number = 2; skeletons.has(nameSkeleton(free)); number++) free = `${name}${number}`
  return free
}
