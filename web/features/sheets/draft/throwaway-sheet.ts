import type { Standard } from '#contract/standards/standards.ts'
import { createSheetKeeper, type SheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { startSheet } from '../../../domain/sheets/grading/running-sheet.ts'

/** A practice sheet on a draft that nothing keeps: it is gone with the page. In: an arm, and the call to begin at. */
export const throwawaySheet = ({ code, version }: Standard, arm: string | null, at = 0): SheetKeeper => {
  const candidate = { id: null, rosterNumber: '', grade: '', familyName: 'Try it out', givenName: '' }
  const head = { purpose: 'practice', standard: code, standardVersion: version, arm, candidate, sponsor: null } as const
  const conditions = { uniform: true, equipment: true, sponsorPresent: true }
  const sheet = startSheet(
    { ...head, graderId: '', testDayId: null, secondOf: null, conditions },
    new Date().toISOString(),
  )
  return createSheetKeeper(
    {
      accountId: '',
      id: '',
      state: 'running',
      sheet: { ...sheet, at },
      revision: 1,
      closedAt: null,
      body: null,
      message: '',
      refusedWith: null,
      tries: 0,
      answer: null,
    },
    async () => undefined,
  )
}
