import { Cron } from 'croner'

/** Seconds are not taken: nobody means to back up every second, and five parts are what crontab has. */
const MODE = '5-part'

/** When something is due, again and again. */
export interface Schedule {
  /** Null: never again. */
  nextAfter(moment: Date): Date | null
  /** The latest moments up to then at which it was due, the latest first. */
  lastUpTo(moment: Date, count: number): Date[]
  stop(): void
}

/** Whether a text is a cron expression that is ever due. */
export function isSchedule(text: string): boolean {
  try {
    return new Cron(text, { mode: MODE, paused: true }).nextRun() !== null
  } catch {
    return false
  }
}

/**
 * Calls `work` whenever it is due, with the minute it was due at.
 * @param pattern passes `isSchedule`
 * @param timeZone IANA name
 */
export function openSchedule(pattern: string, timeZone: string, work: (due: Date) => void): Schedule {
  const job = new Cron(pattern, { mode: MODE, timezone: timeZone, unref: true }, () => work(wholeMinute(new Date())))
  return {
    nextAfter: (moment) => job.nextRun(moment),
    lastUpTo: (moment, count) => job.previousRuns(count, new Date(moment.getTime() + 1)),
    stop: () => job.stop(),
  }
}

const MINUTE_MS = 60_000

const wholeMinute = (moment: Date): Date => new Date(Math.floor(moment.getTime() / MINUTE_MS) * MINUTE_MS)
