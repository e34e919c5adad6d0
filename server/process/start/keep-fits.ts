import { Worker } from 'node:worker_threads'

export interface FitKeeper {
  /** Ends the worker, whatever it is at; what it had not stored it makes anew at the next start. */
  close(): Promise<void>
}

/** What the worker is told. */
export interface FitSetting {
  readonly url: string
  readonly timeZone: string
  /** How often it looks whether sheets have changed. */
  readonly lookMs: number
  /** From the end of one fit to the next it waits at least so long, but not while there are twice as many sheets. */
  readonly restMs: number
}

const LOOK_MS = 5_000
const REST_MS = 180_000

/** Keeps the model fitted on a thread of its own, at the start and when sheets have changed. */
export function keepFits(
  { url, timeZone }: Pick<FitSetting, 'url' | 'timeZone'>,
  onProblem: (error: unknown) => void,
  { lookMs = LOOK_MS, restMs = REST_MS }: Partial<Pick<FitSetting, 'lookMs' | 'restMs'>> = {},
): FitKeeper {
  const workerData: FitSetting = { url, timeZone, lookMs, restMs }
  const worker = new Worker(new URL('./fit-worker.mjs', import.meta.url), { workerData })
  let closing = false
  worker.on('message', (problem: string) => onProblem(new Error(problem)))
  worker.on('error', (error) => {
    if (!closing) onProblem(error)
  })
  worker.unref()
  return {
    async close() {
      closing = true
      await worker.terminate()
    },
  }
}
