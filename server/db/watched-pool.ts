import pg from 'pg'
import { databaseProbe, type Found } from './database-probe.ts'
import { dropWhenDistrusted } from './distrust.ts'
import { dropConnection } from './drop-connection.ts'
import { type DatabaseServer, databaseServer, ServerClient } from './server-client.ts'

const TICK_MS = 1_000
/** So many ticks a question may stay unanswered before PostgreSQL counts as silent, and before a stop waits no longer. */
const PATIENCE_TICKS = 5

/** Settings of a pool, by the address of its server. */
export type PoolSettings = pg.PoolConfig & { readonly connectionString: string }

/** PostgreSQL says nothing any more and has closed nothing: it is frozen, or its machine is cut off. */
export class DatabaseSilent extends Error {
  constructor() {
    super('The database says nothing any more')
    this.name = 'DatabaseSilent'
  }
}

/**
 * A pool of connections that notices when PostgreSQL falls silent. One that was killed closes its connections, and every
 * question fails by itself; a frozen one closes nothing, and every question would wait for its last timeout. So while
 * anything is asked, a probe asks every second whether PostgreSQL is there. Where it gives no answer for some seconds, all
 * connections are cut and new ones fail at once, until it answers again.
 */
export class WatchedPool extends pg.Pool {
  readonly #state: { readonly open: Set<pg.Client>; isSilent: boolean }
  readonly #probe: ReturnType<typeof databaseProbe>
  readonly #ticking: NodeJS.Timeout
  #waitedTicks = 0

  constructor(config: PoolSettings) {
    const state = { open: new Set<pg.Client>(), isSilent: false }
    const server = databaseServer(config.connectionString)
    super({ ...config, connectionString: server.address, Client: trackedClient(server, state) as never })
    this.#state = state
    this.#probe = databaseProbe(server)
    this.on('error', () => {}) // A connection that breaks while idle shows at its next use.
    this.#ticking = setInterval(() => this.#tick(), TICK_MS)
    this.#ticking.unref()
  }

  /** How PostgreSQL is found within a time. */
  async found(withinMs: number): Promise<Found> {
    if (this.#state.isSilent) return 'gone'
    let timer: NodeJS.Timeout | undefined
    const late = new Promise<Found>((resolve) => {
      timer = setTimeout(resolve, withinMs, 'gone')
    })
    try {
      return await Promise.race([this.#ask(), late])
    } finally {
      clearTimeout(timer)
    }
  }

  /** Closes all connections; what PostgreSQL does not let end in some seconds is cut. */
  override async end(): Promise<void> {
    clearInterval(this.#ticking)
    this.#probe.giveUp()
    if (this.#state.isSilent) this.#cut()
    const cut = setTimeout(() => this.#cut(), PATIENCE_TICKS * TICK_MS)
    try {
      await super.end()
    } finally {
      clearTimeout(cut)
    }
  }

  /** Ticks are counted, not time: where our own process was held up, an answer that waits to be read is read first. */
  #tick(): void {
    if (this.#probe.isAsking()) {
      this.#waitedTicks += 1
      if (this.#waitedTicks >= PATIENCE_TICKS) this.#fallSilent()
    } else if (this.#state.isSilent || this.totalCount > this.idleCount || this.waitingCount > 0) void this.#ask()
  }

  async #ask(): Promise<Found> {
    const found = await this.#probe.ask()
    this.#waitedTicks = 0
    if (found !== 'gone') this.#state.isSilent = false
    return found
  }

  #fallSilent(): void {
    this.#state.isSilent = true
    this.#cut()
    this.#probe.giveUp()
  }

  #cut(): void {
    for (const client of this.#state.open) dropConnection(client, new DatabaseSilent())
  }
}

type Connected = ((error: Error) => void) | ((error: null, client: pg.Client) => void)

/** A connection that can be found to be cut, and is not tried where it would only wait. */
function trackedClient(server: DatabaseServer, state: { readonly open: Set<pg.Client>; readonly isSilent: boolean }) {
  return class extends ServerClient {
    constructor(config: pg.ClientConfig) {
      super(server, config)
      dropWhenDistrusted(this)
    }

    override connect(): Promise<pg.Client>
    override connect(callback: Connected): void
    override connect(callback?: Connected): Promise<pg.Client> | undefined {
      if (state.isSilent) {
        if (!callback) return Promise.reject(new DatabaseSilent())
        process.nextTick(callback as (error: Error) => void, new DatabaseSilent())
        return undefined
      }
      // Between the pool and who asked for it nobody listens for a moment; what is asked on it fails by itself.
      this.on('error', () => {})
      state.open.add(this)
      this.once('end', () => state.open.delete(this))
      if (!callback) return super.connect()
      super.connect(callback)
      return undefined
    }
  }
}
