import fs from 'node:fs'
import path from 'node:path'

/** The user a program is started as; empty: the one we are. */
export interface Account {
  uid?: number
  gid?: number
}

const nobody = { uid: 65_534, gid: 65_534 }

/**
 * PostgreSQL refuses to run as root. Started by root it therefore runs as the owner of its files, and where there are
 * none yet as "nobody".
 * @param files folder of the cluster, which may not exist
 */
export function postgresAccount(files: string): Account {
  if (process.getuid?.() !== 0) return {}
  const owner = fs.statSync(files, { throwIfNoEntry: false })
  return owner === undefined || owner.uid === 0 ? nobody : { uid: owner.uid, gid: owner.gid }
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
