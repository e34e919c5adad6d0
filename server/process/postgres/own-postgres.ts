import fs from 'node:fs'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { StartProblem } from '../../config/start-problem.ts'
import { keepPostgresUp } from '../start/keep-postgres-up.ts'
import { connectAdmin } from './connect-admin.ts'
import { createCluster } from './create-cluster.ts'
import { type FolderUser, keepFolderLock, tryFolderLock } from './folder-lock.ts'
import { type Launched, launchPostgres } from './launch-postgres.ts'
import { postgresAccount } from './postgres-account.ts'
import { adminUrl, type PostgresHome, postgresHome, productUrl } from './postgres-home.ts'
import { findPostgresPrograms, type PostgresPrograms } from './postgres-programs.ts'
import { findPostmaster, removeStalePidFile } from './postmaster.ts'
import { removeDraft } from './remove-draft.ts'
import { stopPostgres } from './stop-postgres.ts'

export interface OwnPostgres {
  /** Address of the product's database, as its owner. */
  url: string
  /** Address of the database `postgres`, as superuser. */
  adminUrl: string
  /** Lets a second instance on the folder know the address this one serves. */
  serves(address: string): Promise<void>
  stop(): Promise<void>
}

interface Options {
  /** false only where the data may be lost with the power, as in tests. */
  durable: boolean
  say: (line: string) => void
  /** Called when the server has ended for good, or the folder is no longer ours, without our having stopped it. */
  onLost: () => void
}

/** How often a start is tried again when another one, or what a crash left, is in its way. */
const rounds = 300
const pauseMs = 200

/**
 * Starts the PostgreSQL from npm on its files in the data folder (made when missing) and takes the folder for this
 * process. Of several at once one gets it. A server left running by a process that was killed is stopped first.
 * @param dataFolder exists
 * @throws StartProblem when another instance uses the folder, or PostgreSQL does not start
 */
export async function startOwnPostgres(dataFolder: string, options: Options): Promise<OwnPostgres> {
  const home = postgresHome(path.join(fs.realpathSync(dataFolder), 'postgres'))
  const programs = await findPostgresPrograms(postgresAccount(home.files), options.say)
  if (!fs.existsSync(home.folder)) await createCluster(programs, home.folder, options.durable)
  checkHome(home, programs)
  for (let round = 0; round < rounds; round++) {
    if (round > 0) await setTimeout(pauseMs)
    if (!(await stopLeftover(programs, home, options))) continue
    const launched = await launchPostgres(programs, home, { durable: options.durable })
    if (launched.outcome === 'up') return take(launched, programs, home, options)
    if (launched.outcome === 'failed') {
      throw new StartProblem(`PostgreSQL did not start: ${launched.reason}. Its log is ${home.log}.`)
    }
    if (launched.outcome === 'another one runs') removeStalePidFile(home.files)
  }
  throw new StartProblem(`PostgreSQL could not be started in ${(rounds * pauseMs) / 1000} s. Its log is ${home.log}.`)
}

/** @returns whether no server runs on the files any more; false: it can't be talked to yet */
async function stopLeftover(programs: PostgresPrograms, home: PostgresHome, { say }: Options): Promise<boolean> {
  const running = findPostmaster(home.files)
  if (running === null) return true
  const session = running.isReady ? await connectAdmin(home, running.port) : null
  if (session === null) return false
  try {
    const user = await tryFolderLock(session)
    if (user !== null) throw inUse(home, user)
    say('Stopping the PostgreSQL that the last run left behind.')
    await stopPostgres(programs, home.files)
  } finally {
    await session.end()
  }
  return true
}

async function take(
  { server, session, port }: Launched,
  programs: PostgresPrograms,
  home: PostgresHome,
  { durable, say, onLost }: Options,
): Promise<OwnPostgres> {
  const user = await tryFolderLock(session)
  if (user !== null) throw inUse(home, user)
  removeDrafts(home)
  const url = adminUrl(home, port)
  const lock = keepFolderLock({ session, url }, onLost)
  const letGo = keepPostgresUp({ server, port }, { programs, home, durable, say, onLost })
  return {
    url: productUrl(home, port),
    adminUrl: url,
    serves: lock.serves,
    async stop() {
      lock.letGo()
      letGo()
      await stopPostgres(programs, home.files)
    },
  }
}

/** Clusters begun by starts that were killed meanwhile. */
function removeDrafts({ folder }: PostgresHome): void {
  for (const name of fs.readdirSync(path.dirname(folder))) {
    if (name.startsWith(`${path.basename(folder)}.new-`)) {
      removeDraft(path.join(path.dirname(folder), name))
    }
  }
}

function inUse({ folder }: PostgresHome, { name, since }: FolderUser): StartProblem {
  return new StartProblem(
    `The data folder ${path.dirname(folder)} is in use by ${name} since ${since.toISOString()}. ` +
      'Use that one, stop it first, or set REVIEWSTAND_DATA to another folder.',
  )
}

/** What would make PostgreSQL refuse its files in words of its own. */
function checkHome({ files, password, folder }: PostgresHome, { major }: PostgresPrograms): void {
  for (const part of [files, password]) {
    if (!fs.existsSync(part)) throw new StartProblem(`${part} is missing. Put ${folder} back whole from a backup.`)
  }
  const { uid } = fs.statSync(files)
  const us = process.getuid?.()
  if (us !== undefined && us !== 0 && uid !== us) {
    throw new StartProblem(`${folder} belongs to the user with id ${uid}. Start Reviewstand as that user, or as root.`)
  }
  const written = fs.readFileSync(path.join(files, 'PG_VERSION'), 'utf8').trim()
  if (Number(written) !== major) {
    throw new StartProblem(
      `${files} was written by PostgreSQL ${written}, this is ${major}. Start the version that wrote it.`,
    )
  }
}
