import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'

/** A folder in which programs run that end with the test, however it ends. */
export interface Workshop {
  readonly folder: string
  /** Starts a program of Debian's, never as root; what it says goes into a file named after it. */
  run(name: string, program: string, args: readonly string[]): ChildProcess
  /** Writes a file that those programs may read. Out: where it is. */
  write(name: string, content: string): string
  /** Ends all of it. */
  clear(): Promise<void>
}

interface Surroundings {
  readonly keeps: boolean
  /** A program has ended by itself, which none of them should. */
  readonly onLost: (error: Error) => void
}

export function openWorkshop({ keeps, onLost }: Surroundings): Workshop {
  const account = unprivileged()
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-cluster-'))
  fs.chmodSync(folder, 0o755)
  const own = (file: string) => account && fs.chownSync(file, account.uid, account.gid)
  own(folder)
  const undertaker = spawn(
    process.execPath,
    ['--import', 'tsx', path.join(import.meta.dirname, 'undertaker.ts'), folder, ...(keeps ? ['keep'] : [])],
    { stdio: ['pipe', 'inherit', 'inherit'], detached: true }, // Ctrl-C does not reach it.
  )
  let isOpen = true
  return {
    folder,
    run(name, program, args) {
      const log = fs.openSync(path.join(folder, `${name}.log`), 'a', 0o644)
      const child = spawn(program, args, {
        ...account,
        cwd: folder,
        env: { PATH: '/usr/bin:/bin', HOME: folder, LC_ALL: 'C.UTF-8' },
        stdio: ['ignore', log, log],
        detached: true,
      })
      fs.closeSync(log)
      child.on('error', onLost)
      child.once('exit', () => {
        if (isOpen) onLost(new Error(`${name} has ended:\n${lastLines(path.join(folder, `${name}.log`))}`))
      })
      return child
    },
    write(name, content) {
      const file = path.join(folder, name)
      fs.writeFileSync(file, content, { mode: 0o600 })
      own(file)
      return file
    },
    async clear() {
      isOpen = false
      if (undertaker.exitCode !== null) return
      undertaker.stdin.end()
      await once(undertaker, 'exit')
    },
  }
}

/** PostgreSQL and PgBouncer do not run as root. */
function unprivileged(): { uid: number; gid: number } | null {
  if (process.getuid?.() !== 0) return null
  const id = (flag: string) => Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }))
  return { uid: id('-u'), gid: id('-g') }
}

const LINES = 20
const lastLines = (file: string): string => fs.readFileSync(file, 'utf8').trimEnd().split('\n').slice(-LINES).join('\n')
