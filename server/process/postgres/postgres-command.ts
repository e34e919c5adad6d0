import { type ChildProcess, type IOType, type SpawnOptions, spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import path from 'node:path'
import { text } from 'node:stream/consumers'
import { canReach, postgresAccount } from './postgres-account.ts'
import type { PostgresPrograms } from './postgres-programs.ts'

interface Command {
  program: 'initdb' | 'postgres' | 'pgCtl'
  /** Folder of the cluster, which exists. */
  files: string
  /** The arguments, given how the program is to name that folder. */
  args: (files: string) => string[]
}

/** Starts one of PostgreSQL's programs on a cluster, as a user that PostgreSQL accepts. */
export function spawnOnCluster(
  programs: PostgresPrograms,
  { program, files, args }: Command,
  { stdio, detached = false }: { stdio: (IOType | number)[]; detached?: boolean },
): ChildProcess {
  const account = postgresAccount(files)
  const options: SpawnOptions = {
    ...account,
    cwd: path.parse(files).root,
    env: { LD_LIBRARY_PATH: programs.libraries, LC_ALL: 'C', TZ: 'UTC' },
    detached,
    windowsHide: true,
  }
  if (canReach(files, account)) return spawn(programs[program], args(files), { ...options, stdio })
  // Root may open the folder where the account may not pass; the account then enters it by the open descriptor (Linux).
  const door = fs.openSync(files, 'r')
  try {
    return spawn(programs[program], args('/proc/self/fd/3'), { ...options, stdio: [...stdio, door] })
  } finally {
    fs.closeSync(door)
  }
}

/**
 * Runs one to its end.
 * @param input what it reads
 * @throws Error with what it printed, unless it ends with success
 */
export async function runOnCluster(programs: PostgresPrograms, command: Command, input = ''): Promise<void> {
  const child = spawnOnCluster(programs, command, { stdio: ['pipe', 'pipe', 'pipe'] })
  const printed = Promise.all([text(child.stdout!), text(child.stderr!)])
  child.stdin!.on('error', () => {}) // It ended without reading: its exit code tells.
  child.stdin!.end(input)
  const [code] = (await once(child, 'exit')) as [number | null]
  if (code !== 0) throw new Error(`${command.program} ended with ${code}: ${(await printed).join('').trim()}`)
}
