import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeTestSetting, putSheet } from '../../support/factories.ts'

const TOKEN = 'a-token-of-twenty-letters'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

const ask = async (one: TestApp, headers: Record<string, string> = {}) => {
  const { statusCode, headers: answered, body } = await one.app.inject({ url: '/metrics', headers })
  return { status: statusCode, type: answered['content-type'], body }
}
const figure = (text: string, name: string): number =>
  Number(new RegExp(`^reviewstand_${name} (\\S+)$`, 'm').exec(text)?.[1])

describe('the figures of the server', () => {
  it('count requests by their routes, name nobody, and say what waits', async () => {
    const { candidateId, sheet } = await makeTestSetting(test.office)
    await test.office.get(`/api/soldiers/${candidateId}/status`)
    await putSheet(test.office, sheet({ sponsorId: null }))
    const { status, type, body } = await ask(test)
    expect(status).toBe(200)
    expect(type).toMatch(/^text\/plain\b/)
    expect(body).toContain(
      'reviewstand_request_seconds_count{method="GET",route="/api/soldiers/:id/status",status="200"} 1',
    )
    expect(body).not.toContain(candidateId)
    expect(figure(body, 'held_sheets')).toBe(1)
    expect(figure(body, 'statements')).toBeGreaterThan(figure(body, 'statements_named'))
    expect(figure(body, 'statements_named')).toBeGreaterThan(0)
    expect(figure(body, 'connections_open')).toBeGreaterThanOrEqual(figure(body, 'connections_idle'))
    expect(figure(body, 'last_good_backup_timestamp_seconds')).toBe(0)
    expect(figure(body, 'process_resident_memory_bytes')).toBeGreaterThan(10_000_000)
  })

  it('are not for who comes through a proxy, though that stands on this machine', async () => {
    for (const name of ['x-forwarded-for', 'forwarded', 'via', 'x-real-ip']) {
      expect((await ask(test, { [name]: '127.0.0.1' })).status, name).toBe(403)
    }
    const behind = await buildTestApp({ trustProxy: ['127.0.0.1'] })
    const { status, body } = await ask(behind)
    expect(status).toBe(403)
    expect(JSON.parse(body)).toMatchObject({ type: 'urn:reviewstand:problem:figures-not-for-you' })
    await behind.close()
  })

  it('are for who has the token, from anywhere, where there is one', async () => {
    const guarded = await buildTestApp({ metricsToken: TOKEN, trustProxy: ['127.0.0.1'] })
    for (const authorization of ['', 'Bearer', `Bearer ${TOKEN}x`, TOKEN, `Basic ${TOKEN}`]) {
      expect((await ask(guarded, { authorization })).status, authorization).toBe(403)
    }
    expect((await ask(guarded)).status).toBe(403)
    const { status, body } = await ask(guarded, { authorization: `Bearer ${TOKEN}`, 'x-forwarded-for': '192.0.2.7' })
    expect(status).toBe(200)
    expect(body).toContain('reviewstand_held_sheets 0')
    await guarded.close()
  })
})

describe('whether the server runs, and whether to send it requests', () => {
  it('is told to anybody', async () => {
    expect(await test.nobody.get('/api/health/alive')).toEqual({ status: 'alive' })
    expect(await test.nobody.get('/api/health/ready')).toEqual({ status: 'ready' })
  })
})
