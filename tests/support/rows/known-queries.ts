import { createHash } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { type RawQueries, readQueries } from './read-queries.ts'

const root = path.resolve(import.meta.dirname, '../../..')
const kept = path.join(root, 'node_modules/.cache/raw-queries.json')

/** All raw queries of the server. Worked out anew where its sources, or what reads them, are others than the last time. */
export function knownQueries(): RawQueries {
  const sources = [...sourcesIn('server'), ...sourcesIn('tests/support/rows')].map((file): [string, string] => [
    file,
    fs.readFileSync(path.join(root, file), 'utf8'),
  ])
  const lock = fs.readFileSync(path.join(root, 'package-lock.json'), 'utf8')
  const key = createHash('sha256')
    .update(JSON.stringify([lock, sources]))
    .digest('hex')
  if (fs.existsSync(kept)) {
    const before = JSON.parse(fs.readFileSync(kept, 'utf8')) as { key: string; known: RawQueries }
    if (before.key === key) return before.known
  }
  const asking = sources.filter(([file, text]) => file.startsWith('server/') && text.includes('$queryRaw'))
  const known = readQueries(
    root,
    path.join(root, 'server/tsconfig.json'),
    asking.map(([file]) => file),
  )
  fs.mkdirSync(path.dirname(kept), { recursive: true })
  const fresh = `${kept}.${process.pid}`
  fs.writeFileSync(fresh, JSON.stringify({ key, known }))
  fs.renameSync(fresh, kept)
  return known
}

const sourcesIn = (folder: string): string[] =>
  fs
    .readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => path.posix.join(folder, name.replaceAll(path.sep, '/')))
    .filter((file) => file.endsWith('.ts') && !file.startsWith('server/db/generated/'))
    .sort()
