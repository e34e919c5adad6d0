import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { postgresHome } from '../../server/process/postgres/postgres-home.ts'
import { askDatabase, postgresOf } from '../support/postgres-of.ts'
import { killProducts, type Product, startProduct } from '../support/start-product.ts'

/** An account that every Linux has and nobody uses. */
const OWNER = { uid: 1, gid: 1 }
/** Of no account of the machine. */
const STRANGER = 54_321
const PATIENCE = { timeout: 60_000 }

/** Real, effective, saved and of the file system (proc(5)). */
const idsOf = (pid: number) => {
  const status = fs.readFileSync(`/proc/${pid}/status`, 'utf8')
  const of = (label: string) => (new RegExp(`^${label}:\\s*(.*?)\\s*$`, 'm').exec(status)?.[1] ?? '').split(/\s+/)
  return { uids: of('Uid').map(Number), gids: of('Gid').map(Number), groups: of('Groups').map(Number) }
}

// Only root can become somebody else, and only Linux shows so plainly who a process is.
describe.runIf(process.platform === 'linux' && process.getuid?.() === 0)('started as root', () => {
  let data: string
  beforeEach(() => {
    data = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-data-'))
  })
  afterEach(async () => {
    await killProducts()
    await vi.waitFor(() => expect(postgresOf(data)).toBeNull(), PATIENCE)
    fs.rmSync(data, { recursive: true })
  })

  const start = (settings: Record<string, string> = {}) =>
    startProduct({ REVIEWSTAND_DATA: data, REVIEWSTAND_DEMO: 'off', ...settings })
  const isHealthy = async ({ url }: Product) => (await fetch(`${url}/api/health`)).status === 200
  const ownersIn = (folder: string): number[] => [
    ...new Set(
      fs.readdirSync(folder, { recursive: true }).map((name) => fs.statSync(path.join(folder, `${name}`)).uid),
    ),
  ]

  it('in a folder of somebody else it goes on as that user, and so does PostgreSQL', async () => {
    fs.chownSync(data, OWNER.uid, OWNER.gid)
    for (const round of ['on a new folder', 'once more']) {
      const product = await start()
      expect(product.printed(), round).toContain(
        `Started as root, Reviewstand goes on as the user with id ${OWNER.uid}, who owns ${data}.`,
      )
      for (const pid of [product.process.pid!, postgresOf(data)!.pid]) {
        const { uids, gids, groups } = idsOf(pid)
        expect([new Set(uids), new Set(gids)], round).toEqual([new Set([OWNER.uid]), new Set([OWNER.gid])])
        expect(groups, round).not.toContain(0)
      }
      expect(ownersIn(data), round).toEqual([OWNER.uid])
      expect(await isHealthy(product)).toBe(true)
      expect(await product.end('SIGTERM'), round).toBe(0)
      expect(postgresOf(data), round).toBeNull()
    }
  })

  it('as that user it still starts PostgreSQL again when it is killed', async () => {
    fs.chownSync(data, OWNER.uid, OWNER.gid)
    const product = await start()
    process.kill(postgresOf(data)!.pid, 'SIGKILL')
    await vi.waitFor(() => expect(product.printed()).toContain('PostgreSQL answers again.'), PATIENCE)
    expect(new Set(idsOf(postgresOf(data)!.pid).uids)).toEqual(new Set([OWNER.uid]))
    expect(await askDatabase(data, 'SELECT 42 AS kept')).toEqual([{ kept: 42 }])
  })

  it("in root's own folder it stays root, as before, and says what to do", async () => {
    const product = await start()
    expect(new Set(idsOf(product.process.pid!).uids)).toEqual(new Set([0]))
    expect(product.printed()).toMatch(/runs as root.*\n.*a user of its own.*"chown -R USER \S+"/)
    expect(await isHealthy(product)).toBe(true)
  })

  it('in the folder of no account that the machine knows it stays root as well', async () => {
    fs.chownSync(data, STRANGER, STRANGER)
    const product = await start()
    expect(new Set(idsOf(product.process.pid!).uids)).toEqual(new Set([0]))
    expect(product.printed()).toMatch(/runs as root/)
    expect(await isHealthy(product)).toBe(true)
  })

  it('stays root where the owner could not go on, and says why', async () => {
    fs.chownSync(data, OWNER.uid, OWNER.gid)
    const backups = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-backups-'))
    const product = await start({ REVIEWSTAND_BACKUP_FOLDER: backups })
    fs.rmdirSync(backups)
    expect(new Set(idsOf(product.process.pid!).uids)).toEqual(new Set([0]))
    expect(product.printed()).toContain(`who owns ${data}: it may not write in ${backups}; stop it`)
    expect(await isHealthy(product)).toBe(true)
  })

  it('gives nobody what a link leads to', async () => {
    fs.chownSync(data, OWNER.uid, OWNER.gid)
    await (await start()).end('SIGTERM')
    const { log } = postgresHome(path.join(data, 'postgres'))
    const secret = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-secret-')), 'secret')
    fs.writeFileSync(secret, 'of root')
    fs.rmSync(log)
    fs.linkSync(secret, log)
    fs.symlinkSync(secret, `${log}.before`)
    await (await start()).end('SIGTERM')
    expect([fs.statSync(secret).uid, fs.readFileSync(secret, 'utf8')]).toEqual([0, 'of root'])
    fs.rmSync(path.dirname(secret), { recursive: true })
  })
})
