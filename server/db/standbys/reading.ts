import { AsyncLocalStorage } from 'node:async_hooks'
import type { Position } from './position.db.ts'
import type { Standby } from './standby.ts'

/** A request that only reads, as long as it is answered. Its questions may go to a standby. */
export interface Reading {
  /** How far the primary was after the request had begun; asked once, with its first question. */
  floor: Promise<Position> | null
  /** Who answers it; undefined: not chosen yet, null: the primary, to its end. */
  standby: Standby | null | undefined
}

const readings = new AsyncLocalStorage<Reading>()

/** Runs the rest of a request that only reads. Out: what ends it; what goes on after that asks the primary. */
export function beginReading(rest: () => void): () => void {
  const reading: Reading = { floor: null, standby: undefined }
  readings.run(reading, rest)
  return () => {
    reading.standby = null
  }
}

/** The request whose question this is, where a standby may answer it. */
export function readingNow(): Reading | null {
  const reading = readings.getStore()
  return reading === undefined || reading.standby === null ? null : reading
}

/** What a request that reads must write after all, it has to find again: the primary answers the rest of it. */
export function noteStatement(sql: string): void {
  const reading = readings.getStore()
  if (reading !== undefined && !isQuestion(sql)) reading.standby = null
}

/** Whether a statement may be a question. One that writes in a WITH is refused by every standby, and the primary is asked. */
export const isQuestion = (sql: string): boolean => /^\s*(SELECT|WITH)\b/i.test(sql) && !/\badvisory/i.test(sql)
