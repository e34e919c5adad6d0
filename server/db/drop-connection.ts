import type pg from 'pg'

/** Closes a connection at once, whether PostgreSQL still listens or not; what waits on it fails with the error. */
export function dropConnection(client: pg.Client, error: Error): void {
  const { stream } = client.connection as unknown as { stream: { destroy(error: Error): void } }
  stream.destroy(error)
}
