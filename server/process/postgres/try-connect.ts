import pg from 'pg'

/** SQLSTATE of a server that is starting up or shutting down (cannot_connect_now, admin_shutdown, crash_shutdown). */
const notNow = new Set(['57P03', '57P01', '57P02', 'ECONNREFUSED', 'ECONNRESET', 'EPIPE'])

/**
 * Connects to a PostgreSQL that may be starting or stopping just now.
 * @returns the connection, or null when it does not take any at the moment
 * @throws whatever else stands in the way, such as a wrong password
 */
export async function tryConnect(url: string, applicationName: string): Promise<pg.Client | null> {
  const client = new pg.Client({
    connectionString: url,
    application_name: applicationName,
    connectionTimeoutMillis: 10_000,
    keepAlive: true,
  })
  client.on('error', () => {}) // A connection that breaks while idle must not end the process; 'end' follows.
  try {
    await client.connect()
    return client
  } catch (error) {
    await client.end().catch(() => {})
    const { code, message } = error as NodeJS.ErrnoException
    if ((code !== undefined && notNow.has(code)) || message === 'Connection terminated unexpectedly') return null
    throw error
  }
}
