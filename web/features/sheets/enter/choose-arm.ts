/** The arm of a standard that is tested with only one; else the one chosen before where it is tested with; else ''. */
export const armFor = (tested: readonly string[], before: string): string =>
  tested.length === 1 ? tested[0]! : tested.includes(before) ? before : ''

/**
 * The arm to put on the sheet when its candidate is chosen: the only one that both is carried and tested with; else as
 * without a candidate, and the clerk chooses.
 */
export const chooseArm = (carried: readonly string[], tested: readonly string[], before: string): string => {
  const possible = tested.filter((arm) => carried.includes(arm))
  if (possible.length === 0) return armFor(tested, before)
  return armFor(possible, before)
}
