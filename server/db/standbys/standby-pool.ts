import { AsyncLocalStorage } from 'node:async_hooks'
import { setTimeout } from 'node:timers/promises'
import type pg from 'pg'
import { WatchedPool } from '../watched-pool.ts'
import { type Position, reaches, readReplayed } from './position.db.ts'

/** A standby has not replayed what is asked for, and not within the moment it was given. */
export class StandbyBehind extends Error {
  constructor() {
    super('The standby is behind')
    this.name = 'StandbyBehind'
  }
}

/** A standby that works is behind for milliseconds; it is given these to come up. */
const PAUSES_MS = [2, 5, 10, 20]

/** How far whoever answers must have replayed. */
const floors = new AsyncLocalStorage<Position>()

/** Asks standbys, and none of their answers is older than a position. */
export const notBefore = <Result>(floor: Position, ask: () => Promise<Result>): Promise<Result> =>
  floors.run(floor, ask)

/**
 * Connections to a standby. Before each question it is asked, on the same connection, how far it is: one that was promoted keeps its
 * connections, and goes its own way from then on.
 */
export class StandbyPool extends WatchedPool {
  override query(...question: unknown[]): never {
    return this.#answer(question) as never
  }

  async #answer(question: unknown[]): Promise<unknown> {
    const floor = floors.getStore()
    if (floor === undefined) throw new Error('A standby is asked only for what is not before a position')
    const client = await this.connect()
    try {
      await comeTo(client, floor)
      const answer = await (client.query as (...all: unknown[]) => Promise<unknown>).apply(client, question)
      client.release()
      return answer
    } catch (error) {
      client.release(!(error instanceof StandbyBehind))
      throw error
    }
  }
}

async function comeTo(client: pg.PoolClient, floor: Position): Promise<void> {
  for (const pause of [...PAUSES_MS, null]) {
    const replayed = await readReplayed(client)
    if (replayed && reaches(replayed, floor)) return
    if (pause === null || replayed?.timeline !== floor.timeline) throw new StandbyBehind()
    await setTimeout(pause)
  }
}
