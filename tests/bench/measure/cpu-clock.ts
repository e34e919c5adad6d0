import fs from 'node:fs'

/** Seconds of processor time used so far; null where the system does not tell (it is read from Linux's /proc). */
export type CpuClock = () => number | null

/** What Linux counts processor time in, on every platform that Node runs on. */
const TICKS_A_SECOND = 100

/**
 * The processor time of some processes, and of some others with all their children, ended ones too. Unlike the time on the
 * wall, it hardly depends on what else the machine does.
 */
export function cpuClock(pids: readonly number[], parents: readonly number[]): CpuClock {
  return () => {
    if (process.platform !== 'linux') return null
    const ticks = fs
      .readdirSync('/proc')
      .filter((name) => /^\d+$/.test(name))
      .flatMap((name) => readTimes(Number(name)) ?? [])
      .map(({ pid, parent, own, ended }) => {
        if (parents.includes(pid)) return own + ended
        return pids.includes(pid) || parents.includes(parent) ? own : 0
      })
    return ticks.reduce((sum, one) => sum + one, 0) / TICKS_A_SECOND
  }
}

interface Times {
  readonly pid: number
  readonly parent: number
  readonly own: number
  /** Of children that have ended. */
  readonly ended: number
}

/** See proc_pid_stat(5): after the name in parentheses come state, parent … utime (14th), stime, cutime, cstime. */
function readTimes(pid: number): Times | null {
  try {
    const stat = fs.readFileSync(`/proc/${pid}/stat`, 'utf8')
    const fields = stat
      .slice(stat.lastIndexOf(')') + 2)
      .split(' ')
      .map(Number)
    return { pid, parent: fields[1]!, own: fields[11]! + fields[12]!, ended: fields[13]! + fields[14]! }
  } catch {
    return null // It has ended meanwhile.
  }
}
