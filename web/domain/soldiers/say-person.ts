interface Named {
  grade: string
  familyName: string
  givenName: string
}

/** How a list calls a soldier: "SGT Ashdown, Mirela". */
export const listName = ({ grade, familyName, givenName }: Named): string => `${grade} ${familyName}, ${givenName}`

/** A name as lists give it, short of the given name: "Ashdown" of "Ashdown, Mirela", "SGT Ashdown" of "SGT Ashdown, Mirela". */
export const familyName = (name: string): string => name.split(', ')[0] ?? name

/** How a sentence calls a soldier: "SGT Ashdown". */
export const shortName = ({ grade, familyName }: Named): string => `${grade} ${familyName}`
