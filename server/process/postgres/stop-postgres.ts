import { runOnCluster } from './postgres-command.ts'
import type { PostgresPrograms } from './postgres-programs.ts'
import { findPostmaster } from './postmaster.ts'

/**
 * Stops the server that runs on a cluster, whoever started it, and waits until it is gone: open transactions are rolled
 * back, everything is written. One that does not come to its end in a minute is stopped without writing; the next
 * start then recovers from its journal.
 */
export async function stopPostgres(programs: PostgresPrograms, files: string): Promise<void> {
  const stop = (how: 'fast' | 'immediate') =>
    runOnCluster(programs, {
      program: 'pgCtl',
      files,
      args: (folder) => ['stop', '-D', folder, '-m', how, '-w', '-t', '60'],
    })
  for (const how of ['fast', 'immediate'] as const) {
    if (findPostmaster(files) === null) return
    await stop(how).catch((error: unknown) => {
      if (how === 'immediate' && findPostmaster(files) !== null) throw error
    })
  }
}
