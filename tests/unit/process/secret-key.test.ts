import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { readSecretKey } from '../../../server/process/start/secret-key.ts'

let dataFolder: string
let keyFile: string
beforeEach(() => {
  dataFolder = fs.mkdtempSync(path.join(os.tmpdir(), 'secret-key-'))
  keyFile = path.join(dataFolder, 'secret.key')
})
afterEach(() => fs.rmSync(dataFolder, { recursive: true }))

it('is made once, of 256 bits, for our eyes only, and read again', () => {
  const key = readSecretKey({ keyFile, dataFolder })
  expect(key).toHaveLength(32)
  expect(fs.statSync(keyFile).mode & 0o777).toBe(0o600)
  expect(readSecretKey({ keyFile, dataFolder }).equals(key)).toBe(true)
})

it.each(['', 'short', 'x'.repeat(44)])('that is none says what to do: %j', (text) => {
  fs.writeFileSync(keyFile, text)
  expect(() => readSecretKey({ keyFile, dataFolder })).toThrow(/holds no key of Reviewstand\. Bring back the one/)
})

it('that cannot be made says what to do', () => {
  const elsewhere = path.join(dataFolder, 'not there', 'secret.key')
  expect(() => readSecretKey({ keyFile: elsewhere, dataFolder })).toThrow(/can't be read or made \(ENOENT\)/)
})
