import type { SheetResult, StoredSheet } from '#contract/sheets.ts'

/**
 * What can be said of the retest without asking the server: earliest and due day hang on everything else that is on
 * record of the candidate. In: the result, and how the sheet stands on the server; null while it was not sent.
 */
export const sayRetestOffline = (
  { outcome }: Pick<SheetResult, 'outcome'>,
  state: StoredSheet['state'] | null,
): string[] => {
  if (outcome === 'VOID') return ['It is no attempt, so nothing is to be retested.']
  if (outcome === 'GO') return ['None: it was GO.']
  if (state === 'held') return ['The sheet is held; when the training office has decided, the days of a retest follow.']
  return [
    'Earliest and due day follow once the sheet is on the server: they are on the debrief there, and on the desk of the sponsor.',
  ]
}
