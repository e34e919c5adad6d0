import fs from 'node:fs'
import path from 'node:path'

/** What PostgreSQL has in the data folder. */
export interface PostgresHome {
  folder: string
  /** The cluster: files that only PostgreSQL reads and writes. */
  files: string
  /** A file with the password of both roles, for our eyes only. */
  password: string
  log: string
}

export function postgresHome(folder: string): PostgresHome {
  return {
    folder,
    files: path.join(folder, 'files'),
    password: path.join(folder, 'password'),
    log: path.join(folder, 'log'),
  }
}

/**
 * Gives what root has made beside the cluster to the user that the cluster belongs to. A link that this user may have put
 * there, soft or hard, gives nothing away.
 */
export function handOverHome(
  { folder, password, log }: PostgresHome,
  { uid, gid }: { uid: number; gid: number },
): void {
  for (const part of [folder, password, log, `${log}.before`]) {
    const found = fs.lstatSync(part, { throwIfNoEntry: false })
    if (found?.uid === 0 && (found.isDirectory() || found.nlink === 1)) fs.lchownSync(part, uid, gid)
  }
}

/** Address of the superuser's database, for what is about the server. */
export function adminUrl(home: PostgresHome, port: number): string {
  return address(home, port, 'postgres')
}

/** Address of the product's database, as its owner, who can do no more than that. */
export function productUrl(home: PostgresHome, port: number): string {
  return address(home, port, 'reviewstand')
}

function address({ password }: PostgresHome, port: number, name: 'postgres' | 'reviewstand'): string {
  return `postgresql://${name}:${fs.readFileSync(password, 'utf8').trim()}@127.0.0.1:${port}/${name}`
}
