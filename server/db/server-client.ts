import pg from 'pg'
import { addressesOf, sessionAttributesOf } from '../config/addresses.ts'
import { DatabaseReadOnly } from './read-only.ts'

/** Until a server counts as not there, where another one may be. */
const CONNECT_TIMEOUT_MS = 3_000

interface Place {
  readonly host: string
  readonly port: number
}

/** Where a database is: at one address, or at whichever of several takes writes just now. */
export interface DatabaseServer {
  /** Of the first host. */
  readonly address: string
  /** Null: there is nothing to find. Throws where nobody takes writes. */
  readonly find: (() => Promise<Place>) | null
}

/**
 * In: the address of a database. With several hosts, or with `target_session_attrs`, all of them are asked at once, and the first that
 * takes writes is the one: a frozen one holds nobody up. One on an earlier timeline than the last one found was set aside
 * by a failover and does not know it yet.
 */
export function databaseServer(url: string): DatabaseServer {
  const addresses = addressesOf(url)
  const address = addresses[0]!
  if (addresses.length === 1 && sessionAttributesOf(url) === null) return { address, find: null }
  let latest = 0
  let finding: Promise<Place> | null = null
  const ask = async (one: string): Promise<Place> => {
    const { place, timeline } = await writableAt(one)
    if (timeline < latest) throw new DatabaseReadOnly()
    latest = timeline
    return place
  }
  const findOne = async () => {
    try {
      return await Promise.any(addresses.map(ask))
    } catch (error) {
      const { errors } = error as AggregateError
      throw errors.find((one) => !(one instanceof DatabaseReadOnly) && !isGone(one)) ?? new DatabaseReadOnly()
    } finally {
      finding = null
    }
  }
  return {
    address,
    find: () => {
      finding ??= findOne()
      return finding
    },
  }
}

/** Whatever says nothing of an account or a database that is wrong. */
const isGone = ({ code }: { code?: string }): boolean => code === undefined || !/^(28|3D)/.test(code)

/** Throws where nothing is written. */
async function writableAt(address: string): Promise<{ place: Place; timeline: number }> {
  const client = new pg.Client({
    connectionString: address,
    connectionTimeoutMillis: CONNECT_TIMEOUT_MS,
    query_timeout: CONNECT_TIMEOUT_MS,
    application_name: 'reviewstand looks',
  })
  client.on('error', () => {}) // What waits for an answer fails by itself.
  try {
    await client.connect()
    const { rows } = await client.query<{ timeline: number | null }>(
      `SELECT CASE WHEN current_setting('transaction_read_only') = 'off'
        THEN ('x' || left(pg_walfile_name(pg_current_wal_flush_lsn()), 8))::bit(32)::int END AS timeline`,
    )
    const { timeline } = rows[0]!
    if (timeline === null) throw new DatabaseReadOnly()
    return { place: { host: client.host, port: client.port }, timeline }
  } finally {
    client.connection.stream.destroy()
  }
}

type Connected = ((error: Error) => void) | ((error: null, client: pg.Client) => void)

/** A connection to a database, wherever it takes writes when it connects. */
export class ServerClient extends pg.Client {
  readonly #find: DatabaseServer['find']

  constructor({ address, find }: DatabaseServer, config: pg.ClientConfig) {
    super({ ...config, connectionString: address })
    this.#find = find
  }

  override connect(): Promise<pg.Client>
  override connect(callback: Connected): void
  override connect(callback?: Connected): Promise<pg.Client> | undefined {
    if (this.#find === null) {
      if (!callback) return super.connect()
      super.connect(callback)
      return undefined
    }
    const found = this.#find().then(({ host, port }) => {
      const { destroyed, errored } = this.connection.stream
      if (destroyed) throw errored ?? new Error('The connection was dropped before it was made') // Not made all the same.
      Object.assign(this, { host, port })
    })
    if (!callback) return found.then(() => super.connect())
    found.then(
      () => super.connect(callback),
      (error: Error) => (callback as (error: Error) => void)(error),
    )
    return undefined
  }
}
