import type { Summary } from '../measure/summary.ts'
import { takeTurns } from '../measure/take-turns.ts'
import type { Stand } from '../set-up.ts'

export interface HistoryTimes {
  /** Sheets of a soldier before. */
  readonly few: number
  readonly many: number
  readonly withFew: Summary
  readonly withMany: Summary
}

/**
 * Times storing one sheet after the other for soldiers who have few sheets behind them and for such as have many, in turns. A
 * round's worth of the sheets goes first, untimed.
 */
export async function timeHistories(
  few: Stand,
  many: Stand,
  { rounds, sheetsARound }: { rounds: number; sheetsARound: number },
): Promise<HistoryTimes> {
  const contestant = ({ sheets, product }: Stand) => ({
    call: async (n: number) => {
      const { sheet, json } = sheets[0]![n]!
      await product.caller.put(`/api/sheets/${sheet.id}`, json)
    },
    cpu: product.cpu,
  })
  const extent = { calls: sheetsARound }
  const times = await takeTurns(
    { withFew: contestant(few), withMany: contestant(many) },
    { rounds, concurrency: 1, extent, warmUp: extent },
  )
  return { few: aSoldier(few), many: aSoldier(many), ...times }
}

const aSoldier = ({ size, record }: Stand): number => Math.round(size.sheets / record.establishment.soldiers.length)
