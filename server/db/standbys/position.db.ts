import type { QueryResult } from 'pg'

/** A place in the write-ahead log of a cluster. After a failover another timeline begins, where the old one may have gone on. */
export interface Position {
  readonly timeline: number
  /** As PostgreSQL writes it, like 0/16B3748. */
  readonly lsn: string
}

/** Whatever asks PostgreSQL one thing. */
export interface Asks {
  query<Row extends object>(text: string, values?: unknown[]): Promise<QueryResult<Row>>
}

/** The timeline in the name of a file of the log (PostgreSQL 17, 9.28.3: the first eight hexadecimal digits). */
const TIMELINE = "('x' || left(pg_walfile_name(pg_current_wal_flush_lsn()), 8))::bit(32)::int"

/**
 * How far a primary is: whatever anybody was ever shown by it lies before. A commit is shown once it is flushed, but with
 * synchronous_commit off sooner. Out: null where it is no primary.
 */
export async function readPosition(primary: Asks): Promise<Position | null> {
  const { rows } = await primary.query<{ timeline: number | null; lsn: string }>(
    `SELECT CASE WHEN NOT pg_is_in_recovery() THEN ${TIMELINE} END AS timeline,
      CASE WHEN pg_is_in_recovery() THEN NULL
        WHEN current_setting('synchronous_commit') = 'off' THEN pg_current_wal_insert_lsn()
        ELSE pg_current_wal_flush_lsn() END::text AS lsn`,
  )
  const { timeline, lsn } = rows[0]!
  return timeline === null ? null : { timeline, lsn }
}

/**
 * How far a standby has replayed. It counts for the timeline it receives: one that went on where another was promoted
 * gets nothing of that timeline any more. One that was promoted itself stands where it writes.
 * Out: null where that can't be known, for it receives nothing, or its role may not see it.
 */
export async function readReplayed(standby: Asks): Promise<Position | null> {
  const { rows } = await standby.query<{ timeline: number | null; lsn: string | null }>(
    `SELECT CASE WHEN pg_is_in_recovery() THEN (SELECT received_tli FROM pg_stat_wal_receiver) ELSE ${TIMELINE} END AS timeline,
      CASE WHEN pg_is_in_recovery() THEN pg_last_wal_replay_lsn() ELSE pg_current_wal_flush_lsn() END::text AS lsn`,
  )
  const { timeline, lsn } = rows[0]!
  return timeline === null || lsn === null ? null : { timeline, lsn }
}

/** Whether a position has all that lies before another one, on the same timeline. */
export function reaches(position: Position, floor: Position): boolean {
  return position.timeline === floor.timeline && bytesOf(position) >= bytesOf(floor)
}

/** The place in the log as a number of bytes: the two halves of it, in hexadecimal. */
export function bytesOf({ lsn }: Position): bigint {
  const [high = '', low = ''] = lsn.split('/')
  return (BigInt(`0x${high}`) << 32n) + BigInt(`0x${low}`)
}
