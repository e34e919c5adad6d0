import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import type { FastifyInstance } from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildApp } from '../../../server/app.ts'
import { openBackups } from '../../../server/archive/backup-keeper.ts'
import { checkArchive } from '../../../server/archive/check-archive.ts'
import type { Backups } from '../../../server/context/backups.ts'
import type { BackupStatus } from '../../../server/contract/backups/backups.ts'
import type { RecordItem } from '../../../server/contract/record/record.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Client, createClient } from '../../support/client.ts'

describe('the backups of the administrator', () => {
  let test: TestApp
  let folder: string
  let backups: Backups
  let app: FastifyInstance
  let admin: Client

  beforeAll(async () => {
    test = await buildTestApp()
    await test.signedIn({ name: 'admin', roles: ['administrator'] })
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-api-backups-'))
    const clock = () => test.clock.now
    backups = await openBackups({
      url: test.databaseUrl,
      folder,
      at: '30 2 * * *',
      timeZone: 'UTC',
      keep: 14,
      clock,
      onProblem: () => {},
    })
    app = await buildApp({ config: { demo: false, timeZone: 'UTC' }, db: test.db, clock, backups, logger: false })
    await app.listen({ port: 0, host: '127.0.0.1' })
    admin = createClient(app.server)
    await admin.post('/api/session', { name: 'admin', password: PASSWORD }, 200)
  })
  afterAll(async () => {
    await backups.close()
    await app.close()
    await test.close()
    fs.rmSync(folder, { recursive: true })
  })
  const status = () => admin.get<BackupStatus>('/api/backups/status')

  it('are begun, told of, listed and handed out; who did so is on record', async () => {
    expect(await status()).toMatchObject({
      lastGood: null,
      warning: 'none',
      schedule: { next: '2026-06-16T02:30:00.000Z' },
    })
    await admin.post('/api/backups', undefined, 202)
    await expect.poll(async () => (await status()).running, { timeout: 60_000 }).toBeNull()
    const name = 'reviewstand-2026-06-15T12-00-00Z.tar.gz'
    expect(await status()).toMatchObject({ lastGood: { name }, lastFailure: null, warning: null })
    const { items } = await admin.get<{ items: { name: string; bytes: number }[] }>('/api/backups')
    expect(items.map((item) => item.name)).toEqual([name])

    const { cookies } = await app.inject({
      method: 'POST',
      url: '/api/session',
      headers: { 'sec-fetch-site': 'same-origin' },
      payload: { name: 'admin', password: PASSWORD },
    })
    const file = await app.inject({
      url: `/api/backups/${name}/file`,
      cookies: Object.fromEntries(cookies.map((cookie) => [cookie.name, cookie.value])),
    })
    expect(file.headers['content-disposition']).toBe(`attachment; filename="${name}"`)
    expect(file.headers['cache-control']).toMatch(/no-store/)
    const copy = path.join(folder, 'copy')
    fs.writeFileSync(copy, file.rawPayload)
    expect((await checkArchive(copy)).head.demo).toBe(false)

    const record = await admin.get<{ items: RecordItem[] }>('/api/record?action=backup')
    expect(record.items.map(({ action, accountName, after }) => [action, accountName, after])).toEqual([
      ['backup.downloaded', 'admin', { name, bytes: items[0]!.bytes }],
      ['backup.begun', 'admin', null],
    ])
  })

  it('are told to be overdue once two were missed', async () => {
    const comeBack = async (now: string) => {
      test.clock.now = new Date(now)
      await admin.post('/api/session', { name: 'admin', password: PASSWORD }, 200)
    }
    await comeBack('2026-06-16T02:31:00Z')
    expect((await status()).warning).toBeNull()
    await comeBack('2026-06-17T02:31:00Z')
    expect((await status()).warning).toBe('overdue')
  })

  it.each(['../../etc/passwd', 'reviewstand-.tar.gz', 'copy'])('hand out nothing called %s', async (name) => {
    const { status: answer } = await admin.tries('GET', `/api/backups/${encodeURIComponent(name)}/file`)
    expect([400, 404, 422]).toContain(answer)
  })
})
