import type { ResultItem, SheetItem } from '../../../contract/imports/import-items.ts'
import type { Effect, Given, Run } from '../run.ts'
import { applySheets } from './apply-sheets.ts'

/** The hour that old results without a time are given, by the clock on the wall: it leaves the day as it is written. */
const NOON = 'T12:00'

/** Takes in results of which nothing but the outcome is known, as sheets that enter figures about attempts only. */
export function applyResults(run: Run, given: readonly Given<ResultItem>[]): Promise<Effect> {
  return applySheets(
    run,
    given.map(({ item: { on, outcome, ...item }, ...one }): Given<SheetItem> => {
      const rest = { majors: [], minors: [], pauses: [], acknowledged: [], purpose: 'test' as const }
      const conditions = { uniform: true, equipment: true, sponsorPresent: true }
      return {
        ...one,
        item: { ...item, ...rest, conditions, startedAt: on + NOON, finishedAt: on + NOON, outcomeOnly: outcome },
      }
    }),
  )
}
