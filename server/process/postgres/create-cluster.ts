import { randomBytes } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { StartProblem } from '../../config/start-problem.ts'
import { postgresAccount } from './postgres-account.ts'
import { runOnCluster } from './postgres-command.ts'
import { type PostgresHome, postgresHome } from './postgres-home.ts'
import type { PostgresPrograms } from './postgres-programs.ts'
import { removeDraft } from './remove-draft.ts'

/** Only over loopback, and only with the password. */
const accessRules = 'host all all 127.0.0.1/32 scram-sha-256\n'

/**
 * Makes a cluster with an empty database, its owner, and a random password. It is built beside its place and put there
 * whole: a start broken off leaves no half cluster, and of two starts at once the later one uses what it finds.
 * @param folder its place, where nothing is yet
 * @param durable false only where the data may be lost with the power, as in tests
 */
export async function createCluster(programs: PostgresPrograms, folder: string, durable: boolean): Promise<void> {
  const draft = postgresHome(fs.mkdtempSync(`${folder}.new-`))
  try {
    const { uid, gid } = postgresAccount(draft.files)
    fs.chmodSync(draft.folder, uid === undefined ? 0o700 : 0o711)
    fs.mkdirSync(draft.files, { mode: 0o700 })
    if (uid !== undefined && gid !== undefined) fs.chownSync(draft.files, uid, gid)
    await fill(programs, draft, durable)
    fs.renameSync(draft.folder, folder)
  } catch (error) {
    removeDraft(draft.folder)
    if (fs.existsSync(folder)) return
    throw new StartProblem(`PostgreSQL's files could not be made in ${folder}. ${(error as Error).message}`, {
      cause: error,
    })
  }
}

async function fill(programs: PostgresPrograms, { files, password }: PostgresHome, durable: boolean): Promise<void> {
  const settings = ['-U', 'postgres', '-A', 'trust', '--encoding=UTF8', '--locale=C', '--no-instructions']
  const locale = ['--locale-provider=builtin', '--builtin-locale=C.UTF-8']
  const sync = durable ? [] : ['--no-sync']
  await runOnCluster(programs, {
    program: 'initdb',
    files,
    args: (folder) => ['-D', folder, ...settings, ...locale, ...sync],
  })
  fs.writeFileSync(path.join(files, 'pg_hba.conf'), accessRules)
  const secret = randomBytes(24).toString('base64url')
  fs.writeFileSync(password, secret, { mode: 0o600 })
  // A single-user server listens nowhere, so there is no moment without a password.
  await runOnCluster(
    programs,
    {
      program: 'postgres',
      files,
      args: (folder) => ['--single', '-D', folder, '-j', '-c', 'exit_on_error=on', 'postgres'],
    },
    [
      `ALTER ROLE postgres PASSWORD '${secret}'`,
      `CREATE ROLE reviewstand LOGIN PASSWORD '${secret}'`,
      'CREATE DATABASE reviewstand OWNER reviewstand',
    ]
      .map((statement) => `${statement};\n\n`)
      .join(''),
  )
}
