import { randomBytes } from 'node:crypto'
import type { Config } from '../../config/config.ts'
import { makeDataFolder } from './data-folder.ts'
import { keepKeyFile } from './key-file.ts'

const KEY = /^[\w-]{43}$/

/**
 * The key under which the secrets are sealed that the server must be able to read again: 256 random bits. Servers that share a
 * database share the file.
 * @throws StartProblem where it is no key, or cannot be read or made
 */
export function readSecretKey({ keyFile, dataFolder }: Pick<Config, 'keyFile' | 'dataFolder'>): Buffer {
  makeDataFolder(dataFolder)
  return keepKeyFile(
    {
      file: keyFile,
      name: 'key of Reviewstand',
      remedy:
        'Bring back the one that was there, or set REVIEWSTAND_KEY_FILE to a file that is not there yet: a new key is made, and sealed secrets are typed again.',
      make: () => randomBytes(32).toString('base64url'),
      parse: (text) => (KEY.test(text.trim()) ? Buffer.from(text.trim(), 'base64url') : null),
    },
    dataFolder,
  )
}
