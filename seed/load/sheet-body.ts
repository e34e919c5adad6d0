import { SheetBody } from '../../server/contract/sheets/sheets.ts'
import { type Ids, idOf, idOrNull } from './ids.ts'

/** A planned sheet with ids for names, checked as the API checks it. */
export function toSheetBody({ soldiers, testDays }: Ids, planned: SheetBody): SheetBody {
  return SheetBody.parse({
    ...planned,
    candidateId: idOf(soldiers, planned.candidateId),
    sponsorId: idOrNull(soldiers, planned.sponsorId),
    graderId: idOf(soldiers, planned.graderId),
    testDayId: idOrNull(testDays, planned.testDayId),
    acknowledged: planned.acknowledged.map((one) => ({ ...one, soldierId: idOf(soldiers, one.soldierId) })),
  })
}
