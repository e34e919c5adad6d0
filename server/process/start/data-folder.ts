import fs from 'node:fs'
import path from 'node:path'
import { StartProblem } from '../../config/start-problem.ts'

/**
 * Makes the data folder when missing.
 * @throws StartProblem when it can't be written to
 */
export function makeDataFolder(folder: string): void {
  try {
    make(folder)
    fs.accessSync(folder, fs.constants.W_OK | fs.constants.X_OK)
    fs.rmdirSync(fs.mkdtempSync(`${folder}/.try-`))
  } catch (cause) {
    throw new StartProblem(
      `The data folder ${folder} can't be written to (${(cause as NodeJS.ErrnoException).code}). ` +
        'Make it writable for this user, make room, or set REVIEWSTAND_DATA to another folder.',
      { cause },
    )
  }
}

/** Parents first; Node's own way of doing that never ends where the system refuses a folder as "not there". */
function make(folder: string): void {
  if (fs.existsSync(folder)) return
  make(path.dirname(folder))
  // Closed to others; started as root, the user that runs PostgreSQL then must be able to pass.
  fs.mkdirSync(folder, { mode: process.getuid?.() === 0 ? 0o711 : 0o700 })
}
