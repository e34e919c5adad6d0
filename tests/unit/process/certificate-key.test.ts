import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { readCertificateKey } from '../../../server/process/start/certificate-key.ts'
import { signText, verifyText } from '../../../server/soldiers/services/extracts/signature.ts'
import { PUBLISHED_KEY } from '../../support/published-key.ts'

let dataFolder: string
let file: string
beforeEach(() => {
  dataFolder = fs.mkdtempSync(path.join(os.tmpdir(), 'certificate-key-'))
  file = path.join(dataFolder, 'certificate-key.json')
})
afterEach(() => fs.rmSync(dataFolder, { recursive: true }))

it('is made once, for our eyes only, leaves nothing else, and signs', async () => {
  const key = readCertificateKey({ dataFolder })
  expect(fs.readdirSync(dataFolder)).toEqual(['certificate-key.json'])
  expect(fs.statSync(file).mode & 0o777).toBe(0o600)
  expect(readCertificateKey({ dataFolder })).toEqual(key)
  expect(await verifyText(await signText('a text', key, {}), key.x)).toBe('a text')
})

it('is another one once the file is gone', () => {
  const before = readCertificateKey({ dataFolder })
  fs.rmSync(file)
  expect(readCertificateKey({ dataFolder }).x).not.toBe(before.x)
})

const jwk = { kty: 'OKP', crv: 'Ed25519', ...PUBLISHED_KEY }

it('that somebody brought back is read as it is', () => {
  fs.writeFileSync(file, JSON.stringify(jwk))
  expect(readCertificateKey({ dataFolder })).toEqual(PUBLISHED_KEY)
})

it.each([
  ['nothing', ''],
  ['no JSON', 'key'],
  ['null', 'null'],
  ['a public key alone', JSON.stringify({ ...jwk, d: undefined })],
  ['the public part of another key', JSON.stringify({ ...jwk, x: 'A'.repeat(43) })],
  ['a key of another curve', JSON.stringify({ ...jwk, crv: 'X25519' })],
])('that is none says what to do: %s', (_, text) => {
  fs.writeFileSync(file, text)
  expect(() => readCertificateKey({ dataFolder })).toThrow(/holds no key of certificates\. Bring back the one/)
})

it('that cannot be read says what to do', () => {
  fs.mkdirSync(file)
  expect(() => readCertificateKey({ dataFolder })).toThrow(/can't be read or made \(EISDIR\)/)
})
