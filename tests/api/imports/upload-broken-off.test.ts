import fs from 'node:fs'
import http from 'node:http'
import type { AddressInfo } from 'node:net'
import os from 'node:os'
import { Worker } from 'node:worker_threads'
import pg from 'pg'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { createClient } from '../../support/client.ts'
import { cookiesOf } from '../../support/cookies-of.ts'

const PATIENCE = { timeout: 60_000 }

let test: TestApp
beforeEach(async () => {
  test = await buildTestApp()
})
afterEach(() => test.close())

/** Folders in which this process keeps files that are being taken in. */
const uploads = () =>
  fs.readdirSync(os.tmpdir()).filter((name) => name.startsWith(`reviewstand-import-${process.pid}-`))

/** The cookies of the office. */
async function signIn(): Promise<string> {
  const body = { name: 'office', password: PASSWORD }
  const answer = await createClient(test.app.server).tries('POST', '/api/session', body)
  return cookiesOf(answer)
    .map(({ name, value }) => `${name}=${value}`)
    .join('; ')
}

/** Begins to send a file by a connection of its own. */
function sendFile(cookie: string): http.ClientRequest {
  const { port } = test.app.server.address() as AddressInfo
  const sent = http.request({
    host: '127.0.0.1',
    port,
    method: 'POST',
    path: '/api/imports',
    agent: false,
    headers: { cookie, 'content-type': 'application/octet-stream' },
  })
  return sent.on('error', () => {}) // Broken off, by us or by the server.
}

/** Begins to send a file and goes on for ever. Out: how to break it off. */
async function beginUpload(): Promise<() => void> {
  const sent = sendFile(await signIn())
  const going = setInterval(() => sent.write('Roster number,Family name\n'.repeat(1000)), 20)
  sent.on('close', () => clearInterval(going))
  await vi.waitFor(() => expect(uploads()).toHaveLength(1), PATIENCE)
  return () => sent.destroy()
}

describe('an upload that is broken off', () => {
  it('leaves no file behind when whoever sends it is gone', async () => {
    const breakOff = await beginUpload()
    breakOff()
    await vi.waitFor(() => expect(uploads()).toEqual([]), PATIENCE)
    expect(await test.office.get('/api/imports')).toMatchObject({ items: [] })
  })

  it('leaves no file behind when the server stops, which does not wait for the rest', async () => {
    const breakOff = await beginUpload()
    const stopped = test.app.close()
    await vi.waitFor(() => expect(uploads()).toEqual([]), PATIENCE)
    breakOff()
    await stopped
  })
})

describe('a file that has come and is being read', () => {
  it('is read no further when whoever sent it is gone, and its reader ends', async () => {
    const cookie = await signIn()
    const ended = vi.spyOn(Worker.prototype, 'terminate')
    const holder = new pg.Client({ connectionString: test.databaseUrl })
    await holder.connect()
    // Reading waits for its first rows to be stored, however fast the machine.
    await holder.query('BEGIN; LOCK TABLE import_row IN EXCLUSIVE MODE')
    const imports = () => test.sql('SELECT 1 FROM import_job')
    try {
      const cut = new Promise<void>((resolve) => {
        test.app.server.once('connection', (socket) => socket.once('close', () => resolve()))
      })
      const sent = sendFile(cookie)
      sent.end(`Roster number,Family name\n${'1,Ashford\n'.repeat(5_000)}`)
      await vi.waitFor(async () => expect(await imports()).toHaveLength(1), PATIENCE)
      sent.destroy()
      await cut
    } finally {
      await holder.end()
    }
    await vi.waitFor(() => expect(ended).toHaveBeenCalledOnce(), PATIENCE)
    await ended.mock.results[0]!.value
    await vi.waitFor(async () => expect([await imports(), uploads()]).toEqual([[], []]), PATIENCE)
  })
})
