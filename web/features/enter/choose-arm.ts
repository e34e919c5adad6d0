/**
 * The arm to put on the sheet when its candidate is chosen: the only one that both carries and the standard is tested
 * with; else the one chosen already where it is still possible; else none, and the clerk chooses.
 */
export const chooseArm = (carried: readonly string[], tested: readonly string[], before: string): string => {
  const possible = tested.filter((arm) => carried.includes(arm))
  if (possible.length === 1) return possible[0]!
  if (tested.length === 1) return tested[0]!
  return tested.includes(before) && (possible.length === 0 || possible.includes(before)) ? before : ''
}
