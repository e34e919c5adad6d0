import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'

const project = path.resolve(import.meta.dirname, '../..')
const { scripts } = JSON.parse(fs.readFileSync(path.join(project, 'package.json'), 'utf8')) as { scripts: object }

/** Names in `npm run <name>`, and `npm start` and `npm test`, which go without "run". */
function scriptsNamedIn(text: string): string[] {
  return [...text.matchAll(/\bnpm (?:run ([\w:-]+)|(start|test)\b)/g)].map(([, run, short]) => (run ?? short)!)
}

it.each(['README.md', 'DEVELOPERS.md'])('%s names no script that package.json does not have', (document) => {
  const named = scriptsNamedIn(fs.readFileSync(path.join(project, document), 'utf8'))
  expect(named.length).toBeGreaterThan(0)
  expect(named.filter((name) => !(name in scripts))).toEqual([])
})

it('sees the names in a text', () => {
  expect(scriptsNamedIn('`npm start`, then npm test -- a; npm run bench and npm run a:b')).toEqual([
    'start',
    'test',
    'bench',
    'a:b',
  ])
})
