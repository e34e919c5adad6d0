import { setTimeout } from 'node:timers/promises'

export interface OrderlyStop {
  /** Adds what is to be undone; the last added is undone first. */
  add(undo: () => Promise<void>): void
  /** Undoes everything in order, then ends the process. A second call waits for the first. */
  stop(exitCode: number): Promise<void>
  isStopping(): boolean
}

interface Surroundings {
  say: (line: string) => void
  onError: (error: unknown) => void
  exit: (code: number) => void
}

/** A signal that follows sooner is the same one once more: npm passes on what the terminal has sent already. */
const sameSignalMs = 500

/** Ends the process in order, on a signal too; a second signal ends it at once. */
export function orderlyStop({ say, onError, exit }: Surroundings): OrderlyStop {
  const undoings: (() => Promise<void>)[] = []
  let running: Promise<void> | null = null
  let since = 0

  const undoAll = async (exitCode: number) => {
    let code = exitCode
    for (let undo = undoings.pop(); undo !== undefined; undo = undoings.pop()) {
      await undo().catch((error: unknown) => {
        onError(error)
        code = 1
      })
    }
    exit(code)
  }
  const stop = (exitCode: number) => {
    since ||= Date.now()
    running ??= undoAll(exitCode)
    return running
  }
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.on(signal, () => {
      if (running === null) {
        say('Stopping … (once more to force it)')
        void stop(0)
      } else if (Date.now() - since > sameSignalMs) {
        say('Stopped by force; the next start recovers.')
        exit(130)
      }
    })
  }
  return { add: (undo) => undoings.push(undo), stop, isStopping: () => running !== null }
}

/** @returns whether `work` ended within the time */
export function endsWithin(milliseconds: number, work: Promise<unknown>): Promise<boolean> {
  return Promise.race([work.then(() => true), setTimeout(milliseconds, false, { ref: false })])
}
