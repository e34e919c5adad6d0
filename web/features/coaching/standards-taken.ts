import type { SheetSummary } from '#contract/sheets/sheets.ts'
import type { Retest } from '#contract/standards/certifications.ts'

/** The standards a soldier has sheets of: those with an open retest first, then the one tested last. Sheets come the newest first. */
export const standardsTaken = (sheets: readonly SheetSummary[], retests: readonly Retest[]): string[] => {
  const taken = [...new Set(sheets.map(({ body }) => body.standard))]
  const open = new Set(retests.map(({ standard }) => standard))
  return [...taken.filter((code) => open.has(code)), ...taken.filter((code) => !open.has(code))]
}
