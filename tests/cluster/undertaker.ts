import fs from 'node:fs'
import { setTimeout } from 'node:timers/promises'

/**
 * Clears away after the cluster test, however that ended, by SIGKILL too: waits until the pipe from it closes, ends all that
 * runs in its folder, and removes the folder.
 */
const [folder = '', keeps] = process.argv.slice(2)
if (folder === '') throw new Error('Which folder?')

/** Until PostgreSQL has given its shared memory back. */
const ORDERLY_MS = 5_000

process.stdin.resume()
process.stdin.once('close', () => void clear())

async function clear(): Promise<void> {
  for (const pid of livingHere()) if (!isPostgres(pid)) signal(pid, 'SIGKILL') // First, or it would be started again.
  for (const pid of livingHere()) {
    signal(pid, 'SIGQUIT')
    signal(pid, 'SIGCONT')
  }
  const end = performance.now() + ORDERLY_MS
  while (livingHere().length > 0) {
    if (performance.now() > end) for (const pid of livingHere()) signal(pid, 'SIGKILL')
    await setTimeout(100)
  }
  if (keeps !== 'keep') fs.rmSync(folder, { recursive: true, force: true })
}

/** The folder is in the environment of whatever was started for it; PostgreSQL writes over its own, but stays in its folder. */
const livingHere = (): number[] =>
  fs
    .readdirSync('/proc')
    .map(Number)
    .filter((pid) => pid > 0 && pid !== process.pid && (isPostgres(pid) || read(pid, 'environ').includes(folder)))

const isPostgres = (pid: number): boolean => read(pid, 'comm').trim() === 'postgres' && cwdOf(pid).startsWith(folder)

function read(pid: number, name: string): string {
  try {
    return fs.readFileSync(`/proc/${pid}/${name}`, 'utf8')
  } catch {
    return '' // It has ended, or is somebody else's.
  }
}

function cwdOf(pid: number): string {
  try {
    return fs.readlinkSync(`/proc/${pid}/cwd`)
  } catch {
    return ''
  }
}

function signal(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name)
  } catch {} // It has ended.
}
