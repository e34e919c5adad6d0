import fs from 'node:fs'
import path from 'node:path'

/** The folder of the whole project, seen from the sources as well as from where they are compiled to. */
export const projectFolder: string = above(import.meta.dirname)

function above(folder: string): string {
  if (fs.existsSync(path.join(folder, 'package-lock.json'))) return folder
  const parent = path.dirname(folder)
  if (parent === folder) throw new Error(`No package-lock.json at or above ${import.meta.dirname}`)
  return above(parent)
}
