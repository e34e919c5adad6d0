import { randomUUID } from 'node:crypto'
import { CompactSign, exportJWK, generateKeyPair } from 'jose'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { buildApp } from '../../../server/app.ts'
import type { CertificateKey } from '../../../server/context/certificate-key.ts'
import type { Certificate } from '../../../server/contract/soldiers/extracts.ts'
import type { CheckedCertificate } from '../../../server/contract/soldiers/signed-certificates.ts'
import { kidOf, signText } from '../../../server/soldiers/services/extracts/signature.ts'
import { amend } from '../../support/amend.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { createClient } from '../../support/client.ts'
import { makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { PUBLISHED_KEY } from '../../support/published-key.ts'
import { secondPerson } from '../../support/second-person.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

let test: TestApp
let setting: TestSetting
beforeEach(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
})
afterEach(() => test.close())

/** Of the sponsor, who is certified by a carried-over award, unless it is another's. */
const make = (id = setting.sponsorId) =>
  test.office.get<Certificate>(`/api/soldiers/${id}/certificate?certification=${setting.certification}`)
const signedOf = async (id?: string) => (await make(id)).signed!
const check = (certificate: string, of: Pick<TestApp, 'nobody'> = test) =>
  of.nobody.post<CheckedCertificate>('/api/certificates/verify', { certificate }, 200)
const stateOf = async (certificate: string) => (await check(certificate)).state
const UNKNOWN = { state: 'unknown', certificate: null }

const parts = (signed: string) => signed.split('.') as [string, string, string]
const encoded = (content: object) => Buffer.from(JSON.stringify(content)).toString('base64url')
const payloadOf = (signed: string) => JSON.parse(Buffer.from(parts(signed)[1], 'base64url').toString())

async function newKey(): Promise<CertificateKey> {
  const { privateKey } = await generateKeyPair('EdDSA', { extractable: true })
  const { x, d } = await exportJWK(privateKey)
  return { x: x!, d: d! }
}

describe('a signed certificate', () => {
  it('says what stands on the paper and nothing else, to anybody, and is in force', async () => {
    const { signed, number, unit, soldier, title, awardedOn, validThrough, asOf } = await make()
    const { givenName, familyName, grade } = soldier
    const paper = { number, givenName, familyName, grade, title, awardedOn, validThrough, unit, asOf }
    expect(payloadOf(signed!)).toEqual(paper)
    expect(await check(signed!)).toEqual({ state: 'valid', certificate: paper })
    expect(JSON.stringify(paper)).not.toMatch(new RegExp(`${soldier.rosterNumber}|${soldier.id}`))
  })

  it('leaves nothing in the record of changes and asks for no session', async () => {
    const signed = await signedOf()
    const count = 'SELECT count(*)::int AS n FROM record_entry'
    const before = await test.sql(count)
    await check(signed)
    expect(await test.sql(count)).toEqual(before)
  })

  it('is checked by the key it was signed under, after another has taken its place', async () => {
    const before = await signedOf()
    const replaced = await buildApp({
      config: { demo: false, timeZone: 'UTC' },
      db: test.db,
      clock: () => test.clock.now,
      certificateKey: await newKey(),
      logger: false,
    })
    try {
      await replaced.listen({ port: 0, host: '127.0.0.1' })
      const office = createClient(replaced.server)
      await office.post('/api/session', { name: 'office', password: 'correct horse battery staple' }, 200)
      const address = `/api/soldiers/${setting.sponsorId}/certificate?certification=${setting.certification}`
      const after = (await office.get<Certificate>(address)).signed!
      expect(parts(after)[0]).not.toBe(parts(before)[0])
      for (const one of [before, after]) {
        expect(await check(one, { nobody: createClient(replaced.server) })).toMatchObject({ state: 'valid' })
      }
    } finally {
      await replaced.close()
    }
  })
})

describe('what no key of the unit signed is unknown, without a reason', () => {
  it('changed words, under the same signature', async () => {
    const signed = await signedOf()
    const [head, , signature] = parts(signed)
    const words = { ...payloadOf(signed), familyName: 'Somebody Else' }
    expect(await check(`${head}.${encoded(words)}.${signature}`)).toEqual(UNKNOWN)
  })

  it('another key, under its own name and under ours', async () => {
    const words = JSON.stringify(payloadOf(await signedOf()))
    const foreign = await newKey()
    for (const key of [foreign, PUBLISHED_KEY]) {
      const signed = await signText(words, foreign, { kid: await kidOf(key) })
      expect(await check(signed)).toEqual(UNKNOWN)
    }
    expect(await stateOf(await signText(words, PUBLISHED_KEY, {}))).toBe('unknown')
    expect(await stateOf(await signText(words, PUBLISHED_KEY, { kid: await kidOf(PUBLISHED_KEY) }))).toBe('valid')
  })

  it('another algorithm: none, HMAC with the public key for a secret, and the key brought along', async () => {
    const signed = await signedOf()
    const [, body, signature] = parts(signed)
    const kid = await kidOf(PUBLISHED_KEY)
    for (const alg of ['none', 'None', 'NONE']) {
      expect(await check(`${encoded({ alg, kid })}.${body}.`)).toEqual(UNKNOWN)
      expect(await check(`${encoded({ alg, kid })}.${body}.${signature}`)).toEqual(UNKNOWN)
    }
    for (const secret of [Buffer.from(PUBLISHED_KEY.x, 'base64url'), Buffer.from(PUBLISHED_KEY.x)]) {
      const padded = Buffer.concat([secret], Math.max(32, secret.length))
      const forged = await new CompactSign(Buffer.from(body, 'base64url'))
        .setProtectedHeader({ alg: 'HS256', kid })
        .sign(padded)
      expect(await check(forged)).toEqual(UNKNOWN)
    }
    const foreign = await newKey()
    const jwk = { kty: 'OKP', crv: 'Ed25519', x: foreign.x }
    const header = { kid, jwk } as { kid: string }
    expect(await check(await signText(Buffer.from(body, 'base64url').toString(), foreign, header))).toEqual(UNKNOWN)
  })

  it('what is no signature', async () => {
    const noKid = `${encoded({ alg: 'EdDSA', kid: 7 })}.e30.AA`
    for (const text of ['', 'a', '..', 'a.b.c', '\0', '💂'.repeat(20), noKid, 'x'.repeat(8192)]) {
      expect(await check(text), text).toEqual(UNKNOWN)
    }
  })

  it('and what is too long, or more than a certificate, is not looked at', async () => {
    const send = (body: object, status: number) => test.nobody.refused(status, 'POST', '/api/certificates/verify', body)
    await send({ certificate: 'x'.repeat(8193) }, 422)
    await send({ certificate: 'x'.repeat(20_000) }, 413)
    await send({ certificate: 'x', number: randomUUID() }, 422)
  })
})

describe('a certificate that was good', () => {
  const NO_LONGER = 'no-longer-in-force'

  it('is no longer in force while suspended, and is again afterwards', async () => {
    const signed = await signedOf()
    const body = {
      soldierId: setting.sponsorId,
      certification: setting.certification,
      from: '2026-06-01',
      reason: 'Rest',
    }
    const { id } = await test.office.post('/api/suspensions', body)
    expect(await check(signed)).toEqual({ state: NO_LONGER, certificate: payloadOf(signed) })
    await test.office.post(`/api/suspensions/${id}/lift`, { on: '2026-06-10', reason: 'Well again' }, 200)
    expect(await stateOf(signed)).toBe('valid')
  })

  it('is no longer in force after its last day', async () => {
    const { signed, validThrough } = await make()
    test.clock.now = new Date(`${validThrough}T12:00:00Z`)
    expect(await stateOf(signed!)).toBe('valid')
    test.clock.now = new Date(test.clock.now.getTime() + 86_400_000)
    expect(await stateOf(signed!)).toBe(NO_LONGER)
  })

  it('is no longer in force once the sheet behind it says otherwise', async () => {
    const id = randomUUID()
    await putSheet(test.office, setting.sheet(times('2026-06-10')), id)
    const signed = await signedOf(setting.candidateId)
    expect(await stateOf(signed)).toBe('valid')
    await amend(test.office, await secondPerson(test), id, setting.sheet({ ...times('2026-06-10'), ...NO_GO_MARKS }))
    expect(await stateOf(signed)).toBe(NO_LONGER)
  })

  it('stays in force when its soldier leaves training, and when it is earned anew', async () => {
    await putSheet(test.office, setting.sheet(times('2026-06-10')))
    const before = await signedOf(setting.candidateId)
    const withdrawal = { certification: setting.certification, on: '2026-06-12', reason: 'Moved' }
    await test.office.post(`/api/soldiers/${setting.candidateId}/withdrawals`, withdrawal)
    expect(await stateOf(before)).toBe('valid')
    await putSheet(test.office, setting.sheet(times('2026-06-14')))
    const after = await signedOf(setting.candidateId)
    expect(payloadOf(after).awardedOn).toBe('2026-06-14')
    expect([await stateOf(before), await stateOf(after)]).toEqual(['valid', 'valid'])
  })

  it('is no longer in force once its soldier has left', async () => {
    const signed = await signedOf()
    await test.office.post(
      `/api/soldiers/${setting.sponsorId}/changes`,
      { from: '2026-06-15', left: 'transferred' },
      200,
    )
    expect(await stateOf(signed)).toBe(NO_LONGER)
  })

  it('is unknown once the personal data of its soldier was removed', async () => {
    const { signed, soldier } = await make()
    const { office } = test
    await office.post(`/api/soldiers/${soldier.id}/changes`, { from: '2026-06-15', left: 'separated' }, 200)
    const removal = { reason: 'Asked for it', confirmation: soldier.rosterNumber }
    await office.post(`/api/soldiers/${soldier.id}/removal`, removal, 200)
    expect(await check(signed!)).toEqual(UNKNOWN)
  })
})

it('is checked no faster than anybody may guess', async () => {
  const limited = await buildTestApp({ requestsPerMinute: 40 })
  try {
    const answers = await Promise.all(
      Array.from({ length: 6 }, () => limited.nobody.tries('POST', '/api/certificates/verify', { certificate: 'x' })),
    )
    expect(answers.map(({ status }) => status)).toContain(429)
  } finally {
    await limited.close()
  }
})
