import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { readPushKey } from '../../../server/process/start/push-key.ts'
import { newPushKey } from '../../../server/push/push-keys.ts'

let dataFolder: string
let file: string
beforeEach(() => {
  dataFolder = fs.mkdtempSync(path.join(os.tmpdir(), 'push-key-'))
  file = path.join(dataFolder, 'push-key.json')
})
afterEach(() => fs.rmSync(dataFolder, { recursive: true }))

it('is made once, and read again', () => {
  const { publicKey } = readPushKey({ dataFolder })
  expect(Buffer.from(publicKey, 'base64url')).toHaveLength(65)
  expect(fs.statSync(file).mode & 0o777).toBe(0o600)
  expect(readPushKey({ dataFolder }).publicKey).toBe(publicKey)
})

const jwk = JSON.parse(newPushKey())

it.each([
  ['nothing', ''],
  ['no JSON', 'key'],
  ['a public key alone', JSON.stringify({ ...jwk, d: undefined })],
  ['the public part of another key', JSON.stringify({ ...JSON.parse(newPushKey()), d: jwk.d })],
  ['a key of another curve', JSON.stringify({ ...jwk, crv: 'P-384' })],
])('that is none says what to do: %s', (_, text) => {
  fs.writeFileSync(file, text)
  expect(() => readPushKey({ dataFolder })).toThrow(/holds no key of notifications\. Bring back the one/)
})
