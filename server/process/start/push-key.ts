import path from 'node:path'
import type { Config } from '../../config/config.ts'
import { newPushKey, type PushKeys, parsePushKey } from '../../push/push-keys.ts'
import { makeDataFolder } from './data-folder.ts'
import { keepKeyFile } from './key-file.ts'

/**
 * The key pair by which push services know the unit, in the data folder. Server processes with one database share it, or browsers
 * would have to opt in anew.
 * @throws StartProblem where it is no such key, or cannot be read or made
 */
export function readPushKey({ dataFolder }: Pick<Config, 'dataFolder'>): PushKeys {
  makeDataFolder(dataFolder)
  return keepKeyFile(
    {
      file: path.join(dataFolder, 'push-key.json'),
      name: 'key of notifications',
      remedy:
        'Bring back the one that was there, or take the file away: a new key is made, and notifications are switched on again on each device.',
      make: newPushKey,
      parse: parsePushKey,
    },
    dataFolder,
  )
}
