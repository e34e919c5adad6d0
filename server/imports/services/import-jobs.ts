import type { Context } from '../../context/context.ts'
import { removeLeftUploads } from '../../files/receive-file.ts'
import { beat } from '../db/imports.db.ts'
import type { Progress } from './run.ts'

/** The work was given up before its end: somebody asked for it, or the server stops. */
export class GivenUp extends Error {}

/** Work on files that goes on after the request that began it was answered. */
export interface ImportJobs {
  /** Begins work on a file; its progress is kept where everybody who looks after the file can see it. */
  start(id: string, work: (progress: Progress) => Promise<void>): void
  /** Waits until the work on a file has ended, well or not. */
  ended(id: string): Promise<void>
  /** Gives up what is under way, and waits for it. */
  stop(): Promise<void>
}

const BEAT_MS = 400

/** What a server that was killed has left of files sent to it is removed at the start. */
export function importJobs({ db }: Pick<Context, 'db'>, onError: (error: unknown) => void): ImportJobs {
  removeLeftUploads()
  const running = new Map<string, Promise<void>>()
  let isStopping = false

  async function run(id: string, work: (progress: Progress) => Promise<void>): Promise<void> {
    let now = { stage: 'begin', done: 0, total: 0 }
    let isGivenUp = false
    const pulse = setInterval(() => {
      beat(db, id, now).then(
        (asked) => {
          isGivenUp ||= asked
        },
        () => {}, // The work itself finds out when the database is gone.
      )
    }, BEAT_MS)
    try {
      await work((stage, done, total) => {
        if (isGivenUp || isStopping) throw new GivenUp()
        now = { stage, done, total }
      })
    } catch (error) {
      onError(error)
    } finally {
      clearInterval(pulse)
      running.delete(id)
    }
  }

  return {
    start(id, work) {
      running.set(id, run(id, work))
    },
    ended: async (id) => running.get(id),
    async stop() {
      isStopping = true
      await Promise.allSettled(running.values())
    },
  }
}
