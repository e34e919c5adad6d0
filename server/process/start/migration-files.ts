import { createHash } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'

/** One step of the database's history. */
export interface Migration {
  /** Name of its folder, which begins with its time, so that names sort in order. */
  name: string
  sql: string
  /** SHA-256 of the SQL, in hex, as Prisma records it. */
  checksum: string
}

/** The migrations in a folder laid out as Prisma does it (`<name>/migration.sql`), in order. */
export function readMigrations(folder: string): Migration[] {
  return fs
    .readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => {
      // A checkout with other line ends is the same migration.
      const sql = fs.readFileSync(path.join(folder, name, 'migration.sql'), 'utf8').replaceAll('\r\n', '\n')
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') }
    })
    .sort((one, other) => (one.name < other.name ? -1 : 1))
}
