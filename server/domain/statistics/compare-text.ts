/** The order of two texts by code units, for ties that must fall the same way everywhere. Out: −1, 0 or 1. */
export function compareText(x: string, y: string): number {
  return x < y ? -1 : x > y ? 1 : 0
}
