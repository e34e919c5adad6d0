import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { keepKeyFile } from '../../../server/process/start/key-file.ts'

let folder: string
let file: string
beforeEach(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'key-file-'))
  file = path.join(folder, 'key')
})
afterEach(() => fs.rmSync(folder, { recursive: true }))

const read = (make: () => string) =>
  keepKeyFile(
    {
      file,
      name: 'key of doors',
      remedy: 'Look under the mat.',
      make,
      parse: (text) => /^\w+\n$/.exec(text)?.[0] ?? null,
    },
    folder,
  )

it('makes a key once, whole, for our eyes only, and leaves nothing else', () => {
  expect(read(() => 'first')).toBe('first\n')
  expect(read(() => 'second')).toBe('first\n')
  expect(fs.readdirSync(folder)).toEqual(['key'])
  expect(fs.statSync(file).mode & 0o777).toBe(0o600)
})

it('takes the key of a server that made it in the same moment', () => {
  const key = read(() => {
    fs.writeFileSync(file, 'theirs\n')
    return 'ours'
  })
  expect(key).toBe('theirs\n')
  expect(fs.readdirSync(folder)).toEqual(['key'])
})

it('says what to do where the file holds no key, is none, or leads nowhere', () => {
  fs.writeFileSync(file, '')
  expect(() => read(() => 'new')).toThrow(`${file} holds no key of doors. Look under the mat.`)
  fs.rmSync(file)
  fs.mkdirSync(file)
  expect(() => read(() => 'new')).toThrow(`The key of doors in ${file} can't be read or made (EISDIR). Look under`)
  fs.rmdirSync(file)
  fs.symlinkSync(path.join(folder, 'gone'), file)
  expect(() => read(() => 'new')).toThrow("can't be read or made (ENOENT)")
  expect(fs.readdirSync(folder)).toEqual(['key'])
})
