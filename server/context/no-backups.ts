import type { Backups } from './backups.ts'

/** Of an app that runs without a server process around it: there is no folder, and nothing can be begun. */
export const noBackups: Backups = {
  state: async () => ({ schedule: null, folder: '', keep: 0, lastFailure: null, running: null }),
  list: async () => [],
  begin: async () => false,
  open: async () => null,
  close: async () => {},
}
