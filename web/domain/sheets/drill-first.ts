import type { SheetBody, SheetResult } from '#contract/sheets/sheets.ts'

/** What one sheet says is to be drilled, by code. */
export interface ToDrill {
  /** NO-GO: majors in their order, then minors with the fewest correct trials first, in the order of the standard. */
  first: string[]
  /** GO with an incorrect trial, in the order of the standard. */
  next: string[]
  /** Not tested, so that nothing is known of them. */
  unknown: string[]
}

/** What to drill by this sheet alone; the order is by what was missed, not by chance of passing. */
export const drillFirst = (
  body: Pick<SheetBody, 'majors'>,
  { minors }: { minors: readonly Pick<SheetResult['minors'][number], 'code' | 'outcome' | 'correct' | 'incorrect'>[] },
): ToDrill => {
  const failed = minors.filter(({ outcome }) => outcome === 'NO-GO').sort((a, b) => a.correct - b.correct)
  const codes = (some: readonly { code: string }[]) => some.map(({ code }) => code)
  return {
    first: [...codes(body.majors.filter(({ mark }) => mark === 'NO-GO')), ...codes(failed)],
    next: codes(minors.filter(({ outcome, incorrect }) => outcome === 'GO' && incorrect > 0)),
    unknown: codes(minors.filter(({ outcome }) => outcome === 'not tested')),
  }
}
