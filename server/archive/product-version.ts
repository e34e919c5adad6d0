import fs from 'node:fs'
import path from 'node:path'

/** The version in package.json. */
export function readProductVersion(): string {
  const file = path.resolve(import.meta.dirname, '../../package.json')
  return (JSON.parse(fs.readFileSync(file, 'utf8')) as { version: string }).version
}
