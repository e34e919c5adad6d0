import type pg from 'pg'

/** Closes a connection at once, whether PostgreSQL still listens or not; what waits on it fails with the error. */
export function dropConnection(client: pg.Client, error: Error): void {
  const { stream } = client.connection
  stream.on('error', () => {}) // Where it has not begun to connect nobody else listens yet.
  stream.destroy(error)
}
