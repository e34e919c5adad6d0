import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'

/** A running PostgreSQL server. */
export interface Postmaster {
  pid: number
  port: number
  /** Whether it takes connections by now. */
  isReady: boolean
}

/**
 * The server that runs on a cluster, by its `postmaster.pid` (line 1 process id, line 4 port, line 8 state). The file
 * outlives a server that was killed or lost its power, and its process id may belong to another program by now: so the
 * process itself is looked at. null: none runs.
 * @param files folder of the cluster
 */
export function findPostmaster(files: string): Postmaster | null {
  const lines = readPidFile(files).split('\n')
  const pid = Number(lines[0])
  if (!Number.isInteger(pid) || pid <= 0 || !runsOn(pid, files)) return null
  return { pid, port: Number(lines[3]), isReady: lines[7]?.trim() === 'ready' }
}

/**
 * Takes away the pid file of a server that is gone, where PostgreSQL itself does not dare to, since the id is in use by
 * another program. What is taken away is read once more: had a new server written the file meanwhile, it is put back.
 */
export function removeStalePidFile(files: string): void {
  const stale = readPidFile(files)
  if (stale === '' || findPostmaster(files) !== null) return
  const aside = pidFile(files, `.stale-${process.pid}`)
  fs.renameSync(pidFile(files), aside)
  if (fs.readFileSync(aside, 'utf8') !== stale) fs.linkSync(aside, pidFile(files))
  fs.rmSync(aside)
}

function pidFile(files: string, ending = ''): string {
  return path.join(files, `postmaster.pid${ending}`)
}

function readPidFile(files: string): string {
  try {
    return fs.readFileSync(pidFile(files), 'utf8')
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return ''
    throw error
  }
}

/** A server works in the folder of its cluster, and names it in its command line. */
function runsOn(pid: number, files: string): boolean {
  try {
    if (process.platform === 'linux') {
      const isPostgres = fs.readFileSync(`/proc/${pid}/comm`, 'utf8') === 'postgres\n'
      return isPostgres && fs.readlinkSync(`/proc/${pid}/cwd`) === fs.realpathSync(files)
    }
    if (process.platform === 'win32') return process.kill(pid, 0)
  } catch {
    return false
  }
  return spawnSync('ps', ['-o', 'command=', '-p', String(pid)], { encoding: 'utf8' }).stdout.includes(`-D ${files}`)
}
