import pg from 'pg'
import { ACCOUNT } from '../account.ts'
import type { CpuClock } from '../measure/cpu-clock.ts'
import { openCaller } from '../measure/http-caller.ts'
import type { Summary } from '../measure/summary.ts'
import { takeTurns } from '../measure/take-turns.ts'
import type { PreparedSheet } from './prepared-sheet.ts'
import { storeByHand, valuesOf } from './store-by-hand.ts'

export interface StoreContest {
  readonly concurrency: number
  readonly sheets: readonly PreparedSheet[]
  readonly rounds: number
  readonly sheetsARound: number
}

/** What works for either: the product's server, or the process that sends the hand-written statements; and PostgreSQL. */
export interface StoreClocks {
  readonly product: CpuClock
  readonly byHand: CpuClock
}

/**
 * Times storing the same sheets through the product (on its database) and by hand-written transactions (on a copy of it),
 * in turns. A round's worth of the sheets goes first, untimed.
 */
export async function timeStores(
  origin: string,
  copyUrl: string,
  clocks: StoreClocks,
  { concurrency, sheets, rounds, sheetsARound }: StoreContest,
): Promise<{ product: Summary; byHand: Summary }> {
  const caller = await openCaller(origin, concurrency, ACCOUNT)
  const pool = new pg.Pool({ connectionString: copyUrl, max: concurrency })
  try {
    const { rows } = await pool.query('SELECT id FROM account WHERE name = $1', [ACCOUNT.name])
    const values = sheets.map((one) => valuesOf(one, { id: rows[0].id, name: ACCOUNT.name }))
    const extent = { calls: sheetsARound }
    return await takeTurns(
      {
        product: {
          call: async (n) => {
            await caller.put(`/api/sheets/${sheets[n]!.sheet.id}`, sheets[n]!.json)
          },
          cpu: clocks.product,
        },
        byHand: { call: (n) => storeByHand(pool, values[n]!), cpu: clocks.byHand },
      },
      { rounds, concurrency, extent, warmUp: extent },
    )
  } finally {
    await caller.close()
    await pool.end()
  }
}
