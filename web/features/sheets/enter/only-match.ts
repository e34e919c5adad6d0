interface Named {
  rosterNumber: string
}

/** The one soldier who can be meant by what is typed: the only one found, or whose roster number it is exactly. */
export const onlyMatch = <Soldier extends Named>(found: readonly Soldier[], typed: string): Soldier | undefined =>
  found.length === 1 ? found[0] : found.find(({ rosterNumber }) => rosterNumber.toLowerCase() === typed.toLowerCase())
