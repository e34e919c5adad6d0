import fs from 'node:fs'

export interface MemoryUse {
  /** Megabytes that a process holds now. */
  readonly now: number
  /** The most it has held. */
  readonly most: number
}

/** What memory a process holds; null where the system does not tell (it is read from Linux's /proc, see proc_pid_status(5)). */
export function memoryOf(pid: number): MemoryUse | null {
  if (process.platform !== 'linux') return null
  const status = fs.readFileSync(`/proc/${pid}/status`, 'utf8')
  const megabytes = (name: string) => Number(new RegExp(`^${name}:\\s+(\\d+) kB$`, 'm').exec(status)![1]) / 1024
  return { now: megabytes('VmRSS'), most: megabytes('VmHWM') }
}
