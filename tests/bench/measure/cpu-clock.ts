import fs from 'node:fs'

/** Seconds of processor time used so far; null where the system does not tell (it is read from Linux's /proc). */
export type CpuClock = () => number | null

/** What Linux counts processor time in, on every platform that Node runs on. */
const TICKS_A_SECOND = 100

/**
 * The processor time of some processes and of all children of some others. Unlike the time on the wall, it hardly depends
 * on what else the machine does.
 */
export function cpuClock(pids: readonly number[], parents: readonly number[]): CpuClock {
  return () => {
    if (process.platform !== 'linux') return null
    const counted = fs
      .readdirSync('/proc')
      .filter((name) => /^\d+$/.test(name))
      .flatMap((name) => readTimes(Number(name)) ?? [])
      .filter(({ pid, parent }) => pids.includes(pid) || parents.includes(parent))
    return counted.reduce((sum, { ticks }) => sum + ticks, 0) / TICKS_A_SECOND
  }
}

/** See proc_pid_stat(5): after the name in parentheses come state, parent … utime (14th), stime (15th). */
function readTimes(pid: number): { pid: number; parent: number; ticks: number } | null {
  try {
    const stat = fs.readFileSync(`/proc/${pid}/stat`, 'utf8')
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
    return { pid, parent: Number(fields[1]), ticks: Number(fields[11]) + Number(fields[12]) }
  } catch {
    return null // It has ended meanwhile.
  }
}
