import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'

/** The user a program is started as; empty: the one we are. */
export interface Account {
  uid?: number
  gid?: number
}

const nobody = { uid: 65_534, gid: 65_534 }

/**
 * PostgreSQL refuses to run as root. Started by root it therefore runs as the owner of its files; where there are none
 * yet, as the owner of the data folder; and where that is root or no account of this machine, as "nobody".
 * @param files folder of the cluster, in its own folder in the data folder; none of them need be there
 */
export function postgresAccount(files: string): Account {
  if (process.getuid?.() !== 0) return {}
  const owner = fs.statSync(files, { throwIfNoEntry: false })
  if (owner !== undefined && owner.uid !== 0) return { uid: owner.uid, gid: owner.gid }
  return ownerOf(path.dirname(path.dirname(files))) ?? nobody
}

/** The account that owns a folder, with its first group; null: it is root's, no account's of this machine, or not there. */
export function ownerOf(folder: string): Required<Account> | null {
  const { uid = 0 } = fs.statSync(folder, { throwIfNoEntry: false }) ?? {}
  if (uid === 0) return null
  const { status, stdout } = spawnSync('id', ['-g', String(uid)], { encoding: 'utf8' })
  const gid = Number(stdout)
  return status === 0 && Number.isInteger(gid) && gid > 0 ? { uid, gid } : null
}

/** Whether the account may pass through every folder above `target`, like one in root's closed home. */
export function canReach(target: string, account: Account): boolean {
  if (account.uid === undefined) return true
  for (let folder = path.dirname(target); ; folder = path.dirname(folder)) {
    const { mode, uid, gid } = fs.statSync(folder)
    const bit = uid === account.uid ? 0o100 : gid === account.gid ? 0o010 : 0o001
    if ((mode & bit) === 0) return false
    if (folder === path.dirname(folder)) return true
  }
}
