/** Below so many a share says little; it is drawn hollow and said to be few. */
export const FEW = 5

interface Tested {
  tested: number
  noGo: number
}

/**
 * Measures in the order in which they fail most: by the share NO-GO among the tested, those with fewer than five tests
 * behind the others, equal shares by more tests. Never NO-GO ones come last, too.
 */
export const failingOrder = <Item extends Tested>(items: readonly Item[]): Item[] =>
  [...items].sort(
    (a, b) =>
      Number(a.tested < FEW) - Number(b.tested < FEW) ||
      b.noGo * Math.max(1, a.tested) - a.noGo * Math.max(1, b.tested) ||
      b.tested - a.tested,
  )
