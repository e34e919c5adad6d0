import { execFileSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'

const project = path.resolve(import.meta.dirname, '../..')
const compiled = path.join(project, 'dist/run')

/** What starts the product, compiled. */
export const COMPILED_MAIN = path.join(compiled, 'server/main.js')

/** Compiles the server where a file of it is newer than what was compiled last. */
export function compileServer(): void {
  const last = fs.statSync(path.join(compiled, 'package.json'), { throwIfNoEntry: false })?.mtimeMs ?? 0
  const isNewer = ['server', 'seed'].some((folder) =>
    fs
      .readdirSync(path.join(project, folder), { recursive: true, encoding: 'utf8' })
      .some((file) => fs.statSync(path.join(project, folder, file)).mtimeMs > last),
  )
  if (isNewer) execFileSync(process.execPath, [path.join(project, 'server/process/compile.mjs')], { stdio: 'inherit' })
}
