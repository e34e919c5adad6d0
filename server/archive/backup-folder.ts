import fs from 'node:fs/promises'
import path from 'node:path'
import type { BackupFile } from '../context/backups.ts'
import { momentInName } from './archive-name.ts'
import { UNFINISHED } from './save-archive.ts'

/** The complete backups in a folder, the latest first; none where there is no folder yet. */
export async function listBackups(folder: string): Promise<BackupFile[]> {
  const found = await Promise.all(
    (await namesIn(folder)).map(async (name) => {
      const takenAt = momentInName(name)
      const stat = takenAt && (await fs.lstat(path.join(folder, name)).catch(() => null))
      return stat?.isFile() ? [{ name, takenAt: takenAt!, bytes: stat.size }] : []
    }),
  )
  return found.flat().sort((one, other) => other.takenAt.getTime() - one.takenAt.getTime())
}

/** Deletes all but the latest backups; files that are not ours stay. */
export async function removeOlder(folder: string, keep: number): Promise<void> {
  for (const { name } of (await listBackups(folder)).slice(keep)) await fs.rm(path.join(folder, name), { force: true })
}

/** Deletes what was left half written by processes that are gone. */
export async function removeDrafts(folder: string): Promise<void> {
  for (const name of await namesIn(folder)) {
    const [, archive = '', pid = ''] = /^(.*)\.(\d+)\.unfinished$/.exec(name) ?? []
    if (!name.endsWith(UNFINISHED) || momentInName(archive) === null || othersRun(Number(pid))) continue
    await fs.rm(path.join(folder, name), { force: true })
  }
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return await fs.readdir(folder)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return []
    throw error
  }
}

/** Whether a process of this number runs and is not this one, which writes nothing just now. */
function othersRun(pid: number): boolean {
  if (pid === process.pid) return false
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}
