import { setTimeout } from 'node:timers/promises'
import { parentPort, workerData } from 'node:worker_threads'
import { fitWhenChanged } from './ability/services/fit-when-changed.ts'
import { createContext } from './context/create-context.ts'
import { openDatabase } from './db/client.ts'
import { connectDatabase } from './process/start/connect-database.ts'
import { tryFitLock } from './process/start/fit-lock.ts'
import type { FitSetting } from './process/start/keep-fits.ts'

/*
 * The thread that keeps the model fitted. Of several server processes one fits; the others look again later, and take over
 * when its connection is gone.
 */
const { url, timeZone, lookMs, restMs } = workerData as FitSetting
const context = createContext({ db: openDatabase(url), clock: () => new Date(), timeZone })

while (true) {
  try {
    const lock = await connectDatabase(url)
    try {
      if (await tryFitLock(lock)) await fitWhenChanged(context, { lookMs, restMs }, () => lock.query('SELECT 1'))
    } finally {
      await lock.end().catch(() => {})
    }
  } catch (error) {
    parentPort?.postMessage(error instanceof Error ? error.message : String(error))
  }
  await setTimeout(lookMs)
}
