import fs from 'node:fs'
import path from 'node:path'
import { projectFolder } from '../config/project-folder.ts'

/** The version in package.json. */
export function readProductVersion(): string {
  const file = path.join(projectFolder, 'package.json')
  return (JSON.parse(fs.readFileSync(file, 'utf8')) as { version: string }).version
}
