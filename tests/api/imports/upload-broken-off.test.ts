import fs from 'node:fs'
import http from 'node:http'
import type { AddressInfo } from 'node:net'
import os from 'node:os'
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

/** Begins to send a file and goes on for ever. Out: how to break it off. */
async function beginUpload(): Promise<() => void> {
  const body = { name: 'office', password: PASSWORD }
  const signIn = await createClient(test.app.server).tries('POST', '/api/session', body)
  const cookie = cookiesOf(signIn).map(({ name, value }) => `${name}=${value}`)
  const { port } = test.app.server.address() as AddressInfo
  const sent = http.request({
    host: '127.0.0.1',
    port,
    method: 'POST',
    path: '/api/imports',
    headers: { cookie: cookie.join('; '), 'content-type': 'application/octet-stream' },
  })
  sent.on('error', () => {}) // Broken off, by us or by the server.
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
