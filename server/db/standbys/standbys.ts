import type { QueryResult } from 'pg'
import { isQueryTimeout } from '../database-errors.ts'
import type { PrismaClient } from '../generated/client.ts'
import { DatabaseReadOnly } from '../read-only.ts'
import type { PoolSettings } from '../watched-pool.ts'
import { type Asks, bytesOf, type Position, readPosition, readReplayed } from './position.db.ts'
import { isQuestion, type Reading, readingNow } from './reading.ts'
import { Standby } from './standby.ts'

/** Longer than a standby that works needs to say how far it is. */
const FIGURE_MS = 1_000

/** How the standbys do, in the order they are named in. */
export interface StandbyFigures {
  /** Bytes of the log that it has not replayed; null: it does not answer, or receives nothing from this primary. */
  readonly lagBytes: number | null
  readonly answered: number
}

/**
 * The standbys of a database. A question of a request that only reads goes to one of them, the same one for all of the
 * request, where it has replayed everything that the primary had flushed after the request began. So no answer is older than what anybody was
 * shown or told before; nothing has to be kept for an account, and it holds for whichever server process, browser or
 * script asks. Where no standby is that far, or one fails, the primary answers.
 */
export class Standbys {
  readonly #primary: Asks
  readonly #standbys: readonly Standby[]
  #turn = 0

  constructor(primary: Asks, each: readonly PoolSettings[]) {
    this.#primary = primary
    this.#standbys = each.map((settings) => new Standby(settings))
  }

  /** The same database, whose raw questions of requests that only read go to a standby; all else is left as it is. */
  readFor(db: PrismaClient): PrismaClient {
    const ask = (...question: Parameters<PrismaClient['$queryRaw']>) => {
      const reading = readingNow()
      const [text] = question
      const sql = 'sql' in text ? text.sql : (text[0] ?? '')
      const primary = () => db.$queryRaw(...question)
      return reading === null || !isQuestion(sql) ? primary() : this.#askFor(reading, question, primary)
    }
    return new Proxy(db, {
      get(of, key) {
        if (key === '$queryRaw') return ask
        const found: unknown = Reflect.get(of, key)
        return typeof found === 'function' ? found.bind(of) : found
      },
    })
  }

  async #askFor(
    reading: Reading,
    question: Parameters<PrismaClient['$queryRaw']>,
    primary: () => Promise<unknown>,
  ): Promise<unknown> {
    if (reading.standby === undefined && !this.#standbys.some((one) => one.isWorthAsking())) reading.standby = null
    if (reading.standby === null) return primary()
    reading.floor ??= this.#floor()
    const floor = await reading.floor
    // Meanwhile another question of the request may have gone to the primary, which may be further than any standby.
    if (reading.standby === undefined) reading.standby = this.#next()
    const { standby } = reading
    if (!standby) return primary()
    try {
      return await standby.ask(floor, question)
    } catch (error) {
      if (isQueryTimeout(error)) throw error
      reading.standby = null
      return primary()
    }
  }

  async #floor(): Promise<Position> {
    const position = await readPosition(this.#primary)
    if (position === null) throw new DatabaseReadOnly()
    return position
  }

  #next(): Standby | null {
    const worth = this.#standbys.filter((one) => one.isWorthAsking())
    this.#turn += 1
    return worth[this.#turn % worth.length] ?? null
  }

  async figures(): Promise<StandbyFigures[]> {
    const primary = await readPosition(this.#primary)
    return Promise.all(
      this.#standbys.map(async (one) => ({ lagBytes: primary && (await lagOf(one, primary)), answered: one.answered })),
    )
  }

  async close(): Promise<void> {
    await Promise.all(this.#standbys.map((one) => one.close()))
  }
}

async function lagOf({ pool }: Standby, primary: Position): Promise<number | null> {
  if ((await pool.found(FIGURE_MS)) === 'gone') return null
  const asks: Asks = {
    async query<Row extends object>(text: string): Promise<QueryResult<Row>> {
      const client = await pool.connect()
      try {
        return await client.query<Row>(text)
      } finally {
        client.release()
      }
    },
  }
  const replayed = await readReplayed(asks).catch(() => null)
  if (replayed?.timeline !== primary.timeline) return null
  return Math.max(0, Number(bytesOf(primary) - bytesOf(replayed)))
}
