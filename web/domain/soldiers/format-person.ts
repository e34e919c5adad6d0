interface Named {
  grade: string
  familyName: string
  givenName: string
}

/** How a list calls a soldier: "SGT Ashdown, Mirela". */
export const listName = ({ grade, familyName, givenName }: Named): string => `${grade} ${familyName}, ${givenName}`

/** Soldiers to pick from, with the roster number beside the name, and in it where another is called alike: so it stays when one is picked. */
export const suggestPeople = (
  people: readonly (Named & { id: string; rosterNumber: string })[],
): { id: string; text: string; note?: string }[] =>
  people.map((one) => {
    const { id, rosterNumber } = one
    const name = listName(one)
    const isAlone = people.every((other) => other.id === id || listName(other) !== name)
    return isAlone ? { id, text: name, note: rosterNumber } : { id, text: `${name}, ${rosterNumber}` }
  })

/** A name as lists give it, short of the given name: "Ashdown" of "Ashdown, Mirela", "SGT Ashdown" of "SGT Ashdown, Mirela". */
export const familyName = (name: string): string => name.split(', ')[0] ?? name

/** How a sentence calls a soldier: "SGT Ashdown". */
export const shortName = ({ grade, familyName }: Named): string => `${grade} ${familyName}`

interface OnRoster {
  id: string
  rosterNumber: string
  grade: string
  /** "Ashdown, Mirela". */
  name: string
}

const gradeAndFamily = ({ grade, name }: OnRoster): string => `${grade} ${familyName(name)}`

/**
 * Short names that tell a group apart, by id: "SGT Ashdown"; with the given name where two would read alike; with the roster
 * number as well where that is not enough.
 */
export const distinctNames = (people: readonly OnRoster[]): Map<string, string> => {
  const each = [...new Map(people.map((one) => [one.id, one])).values()]
  const isAlone = (one: OnRoster, say: (one: OnRoster) => string) =>
    each.every((other) => other.id === one.id || say(other) !== say(one))
  const inFull = ({ grade, name }: OnRoster) => `${grade} ${name}`
  return new Map(
    each.map((one) => [
      one.id,
      isAlone(one, gradeAndFamily)
        ? gradeAndFamily(one)
        : isAlone(one, inFull)
          ? inFull(one)
          : [inFull(one), one.rosterNumber].filter(Boolean).join(', '),
    ]),
  )
}
