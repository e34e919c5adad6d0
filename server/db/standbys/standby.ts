import { PrismaPg } from '@prisma/adapter-pg'
import { isUnreachable } from '../database-errors.ts'
import { PrismaClient } from '../generated/client.ts'
import { statementNames } from '../statement-names.ts'
import type { PoolSettings } from '../watched-pool.ts'
import type { Position } from './position.db.ts'
import { notBefore, StandbyBehind, StandbyPool } from './standby-pool.ts'

/** Somebody who waits for a standby could be answered by the primary meanwhile. */
const CONNECT_TIMEOUT_MS = 1_500
/** So long one that was behind, or failed, is left alone. */
const BEHIND_MS = 200
const FAILED_MS = 5_000

type Question = Parameters<PrismaClient['$queryRaw']>

/** A standby and whether it is worth asking. */
export class Standby {
  readonly pool: StandbyPool
  readonly #client: PrismaClient
  #leftAloneUntil = 0
  /** Questions it has answered. */
  answered = 0

  constructor(settings: PoolSettings) {
    this.pool = new StandbyPool({ ...settings, connectionTimeoutMillis: CONNECT_TIMEOUT_MS })
    const nameOf = statementNames()
    const statementNameGenerator = ({ sql }: { sql: string }) => nameOf(sql) as string
    this.#client = new PrismaClient({ adapter: new PrismaPg(this.pool, { statementNameGenerator }) })
  }

  isWorthAsking(): boolean {
    return performance.now() >= this.#leftAloneUntil
  }

  /** Throws where it can't answer, or not from as late as the floor; then it is left alone for a while. */
  async ask(floor: Position, question: Question): Promise<unknown> {
    try {
      const rows = await notBefore(floor, async () => this.#client.$queryRaw(...question))
      this.answered += 1
      return rows
    } catch (error) {
      const rest = error instanceof StandbyBehind ? BEHIND_MS : isUnreachable(error) ? FAILED_MS : 0
      this.#leftAloneUntil = performance.now() + rest
      throw error
    }
  }

  async close(): Promise<void> {
    await this.#client.$disconnect()
    await this.pool.end()
  }
}
