import type { SheetBody } from '../../../server/contract/sheets/sheets.ts'
import { dayInZone } from '../../../server/domain/calendar/day-in-zone.ts'
import { addDays } from '../../../server/domain/calendar/plain-date.ts'
import type { PlannedSheet } from '../plan.ts'
import { inOffice } from './arrivals.ts'
import { FLAWS, type Flaw } from './flaws.ts'
import type { Program } from './program.ts'

const COUNTED = 0.65
const ARM_CAN_BE_MENDED = 0.85
const CONFIRMED_AFTER_MS = 20 * 60_000

/**
 * What becomes of a sheet with a flaw: the office counts it, rejects it, has a wrong arm mended, or has not decided yet.
 * In: when it came in, and the sheet as it should have been. Writes down the decision; out: how the sheet will stand.
 */
export function settleFlaw(
  program: Program,
  flaw: Flaw,
  sheet: { id: string; at: number; right: SheetBody },
): PlannedSheet['stands'] {
  const { random, events, timeZone } = program
  if (program.undecided.delete(flaw)) return 'held'
  const at = inOffice(program, addDays(dayInZone(sheet.at, timeZone), random.integer(1, 6)))
  if (at === null) return 'held'
  const { id, right } = sheet
  if (flaw === 'arm-not-allowed' && random.chance(ARM_CAN_BE_MENDED)) {
    const body = { reason: `Wrong arm ticked; tested with the ${right.arm}.`, sheet: right }
    events.push({ kind: 'amendment', at, id, body })
    const confirm = { decision: 'confirm', reason: 'Compared with the list of the test day.' } as const
    events.push({ kind: 'confirmation', at: at + CONFIRMED_AFTER_MS, id, body: confirm })
    return 'counted'
  }
  const { count, reject } = FLAWS[flaw]
  const counts = count !== null && random.chance(COUNTED)
  const body = counts
    ? ({ decision: 'count', reason: count } as const)
    : ({ decision: 'reject', reason: reject } as const)
  events.push({ kind: 'decision', at, id, body })
  return counts ? 'counted' : 'rejected'
}
