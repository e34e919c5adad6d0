import fs from 'node:fs'
import path from 'node:path'
import { insertAccount } from '../../server/accounts/db/accounts.db.ts'
import { hashPassword } from '../../server/accounts/services/password.ts'
import { closeDatabase, openDatabase } from '../../server/db/client.ts'
import { type Product, startProduct } from '../support/start-product.ts'
import type { Cluster } from './run-cluster.ts'
import type { Workshop } from './workshop.ts'

const PASSWORD = 'correct horse battery staple'

/** Settings of a server process with a folder of its own. */
export function settingsOf({ folder }: Workshop, name: string, databaseUrl: string): Record<string, string> {
  return {
    DATABASE_URL: databaseUrl,
    REVIEWSTAND_DEMO: 'off',
    REVIEWSTAND_DATA: path.join(folder, `server-${name}`),
    REVIEWSTAND_KEY_FILE: path.join(folder, 'secret.key'),
    REVIEWSTAND_REQUESTS_PER_MINUTE: '0',
    LOG_LEVEL: 'error',
  }
}

/** The ways of the servers to the primary, by name: by HAProxy, and by the hosts themselves. */
const WAYS = {
  'by HAProxy': (cluster: Cluster, database: string) => cluster.url('reviewstand', database),
  'by the hosts': (cluster: Cluster, database: string) =>
    `${cluster.hostsUrl(database)}?target_session_attrs=read-write`,
}

export interface RunningServer {
  readonly name: string
  readonly url: string
  /** Writes all it has said into a file of the folder. */
  keepLog(): void
}

interface Around {
  readonly database: string
  readonly workshop: Workshop
  /** A server has ended by itself. */
  readonly onLost: (error: Error) => void
}

/** Starts one server for each way; all read from whoever stands by. */
export async function startServers(cluster: Cluster, { database, workshop, onLost }: Around): Promise<RunningServer[]> {
  const servers = []
  for (const [place, [name, way]] of Object.entries(WAYS).entries()) {
    const settings = settingsOf(workshop, String(place), way(cluster, database))
    const product: Product = await startProduct({ ...settings, DATABASE_READ_URL: cluster.hostsUrl(database) })
    product.process.once('exit', (_, signal) => {
      if (signal !== 'SIGKILL') onLost(new Error(`The server ${name} has ended:\n${product.printed()}`))
    })
    const log = path.join(workshop.folder, `server-${place}.log`)
    servers.push({ name, url: product.url, keepLog: () => fs.writeFileSync(log, product.printed()) })
  }
  return servers
}

/** What an account signs in with. */
export interface Account {
  readonly name: string
  readonly password: string
}

/** Makes an account of the office. */
export async function makeAccount(url: string, name: string): Promise<Account> {
  const db = openDatabase(url)
  await insertAccount(db, {
    name,
    passwordHash: await hashPassword(PASSWORD),
    roles: ['office'],
    soldierId: null,
    unitId: null,
    createdAt: new Date(),
  })
  await closeDatabase(db)
  return { name, password: PASSWORD }
}
