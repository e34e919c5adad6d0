import fs from 'node:fs'
import path from 'node:path'
import type { Config } from '../../config/config.ts'
import { projectFolder } from '../../config/project-folder.ts'
import { type Account, ownerOf } from '../postgres/postgres-account.ts'
import { handOverHome, postgresHome } from '../postgres/postgres-home.ts'

const ROOT = 0
const PROGRAM = path.join(projectFolder, 'server/main.ts')

type Owner = Required<Account>

/**
 * Started by root, the server goes on as the owner of the data folder, for good, once it listens: a port below 1024 needs root,
 * answering does not. What root has made in the folder meanwhile is given to the owner. It stays root where the folder is
 * root's own, or its owner is no account of the machine or could not go on.
 * Out: what whoever started it should know; empty where it is not root.
 */
export function leaveRoot(config: Pick<Config, 'dataFolder' | 'backupFolder' | 'databaseUrl'>): string[] {
  if (process.getuid?.() !== ROOT) return []
  const { dataFolder } = config
  const owner = ownerOf(dataFolder)
  if (owner === null)
    return formatStaysRoot(
      `Better let a user of its own have its folder: stop it, then "chown -R USER ${dataFolder}", and start it again.`,
    )
  const hindrance = hindranceTo(owner, config)
  if (hindrance !== null)
    return formatStaysRoot(`It could not go on as the user with id ${owner.uid}, who owns ${dataFolder}: ${hindrance}.`)
  if (config.databaseUrl === null) handOverHome(homeIn(dataFolder), owner)
  become(owner)
  return [`Started as root, Reviewstand goes on as the user with id ${owner.uid}, who owns ${dataFolder}.`]
}

const formatStaysRoot = (remedy: string): string[] => [
  'Attention: Reviewstand runs as root, so whoever finds a hole in it has the whole machine.',
  remedy,
]

const homeIn = (dataFolder: string) => postgresHome(path.join(dataFolder, 'postgres'))

/** Why the owner could not do what the server does; null: nothing hinders it. */
function hindranceTo(
  owner: Owner,
  { dataFolder, backupFolder, databaseUrl }: Parameters<typeof leaveRoot>[0],
): string | null {
  const { files } = homeIn(dataFolder)
  const give = (folder: string) => `stop it, then "chown -R ${owner.uid} ${folder}", and start it again`
  if (databaseUrl === null && fs.statSync(files).uid !== owner.uid)
    return `${files} belongs to somebody else; ${give(dataFolder)}`
  const needs = [
    [`it may not read ${PROGRAM}; open that folder to it`, () => fs.closeSync(fs.openSync(PROGRAM, 'r'))],
    [`it may not write in ${dataFolder}; ${give(dataFolder)}`, () => writeIn(dataFolder)],
    [`it may not write in ${backupFolder}; ${give(backupFolder)}`, () => writeIn(nearest(backupFolder))],
  ] as const
  return tryAs(owner, () => needs.find(([, need]) => !succeeds(need))?.[0] ?? null)
}

/** The folder, or the nearest one above it that is there. */
const nearest = (folder: string): string => (fs.existsSync(folder) ? folder : nearest(path.dirname(folder)))

const writeIn = (folder: string) => fs.rmdirSync(fs.mkdtempSync(path.join(folder, '.try-')))

function succeeds(act: () => void): boolean {
  try {
    act()
    return true
  } catch {
    return false
  }
}

/** Does something at once with the rights of another user, and is root again after. */
function tryAs<Result>({ uid, gid }: Owner, act: () => Result): Result {
  const groups = process.getgroups!()
  process.setgroups!([gid])
  process.setegid!(gid)
  process.seteuid!(uid)
  try {
    return act()
  } finally {
    process.seteuid!(ROOT)
    process.setegid!(process.getgid!())
    process.setgroups!(groups)
  }
}

/** Groups first: who is no longer root may change none. */
function become({ uid, gid }: Owner): void {
  process.setgroups!([gid])
  process.setgid!(gid)
  process.setuid!(uid)
}
