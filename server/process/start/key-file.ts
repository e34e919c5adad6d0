import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import { StartProblem } from '../../config/start-problem.ts'

/** A key that is made at the first start and kept in a file of its own. */
export interface KeptKey<Key> {
  readonly file: string
  /** What messages call it, like "key of certificates". */
  readonly name: string
  /** What to do where the file is damaged or gone. */
  readonly remedy: string
  /** A new one, as the file holds it. */
  make(): string
  /** Null: the text is no such key. */
  parse(text: string): Key | null
}

/**
 * Reads the key, for which a file is made where there is none, for our eyes only. Servers that share the file read the same key.
 * @param dataFolder as whose owner the server goes on; root makes the file for it
 * @throws StartProblem where the file is no such key, or cannot be read or made
 */
export function keepKeyFile<Key>({ file, name, remedy, make, parse }: KeptKey<Key>, dataFolder: string): Key {
  let text: string
  try {
    if (!fs.existsSync(file)) makeFile(file, make(), dataFolder)
    text = fs.readFileSync(file, 'utf8')
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException
    throw new StartProblem(`The ${name} in ${file} can't be read or made (${code}). ${remedy}`, { cause })
  }
  const key = parse(text)
  if (key === null) throw new StartProblem(`${file} holds no ${name}. ${remedy}`)
  return key
}

/** It has its name only once it is whole and on the disk. Of two servers that start at once the first makes it. */
function makeFile(file: string, text: string, dataFolder: string): void {
  const unfinished = `${file}.${randomUUID()}`
  try {
    fs.writeFileSync(unfinished, `${text}\n`, { mode: 0o600, flag: 'wx', flush: true })
    const { uid, gid } = fs.statSync(dataFolder)
    if (process.getuid?.() === 0) fs.chownSync(unfinished, uid, gid)
    fs.linkSync(unfinished, file)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  } finally {
    fs.rmSync(unfinished, { force: true })
  }
}
