import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'

const project = path.resolve(import.meta.dirname, '../..')
const read = (file: string) => fs.readFileSync(path.join(project, file), 'utf8')

const documents = ['.', 'server', 'web', 'seed', 'tests'].flatMap((folder) =>
  fs
    .readdirSync(path.join(project, folder), { recursive: folder !== '.', encoding: 'utf8' })
    .filter((file) => file.endsWith('.md'))
    .map((file) => path.join(folder, file)),
)

/** Names in `npm run <name>`, and `npm start` and `npm test`, which go without "run". */
function scriptsNamedIn(text: string): string[] {
  return [...text.matchAll(/\bnpm (?:run ([\w:-]+)|(start|test)\b)/g)].map(([, run, short]) => (run ?? short)!)
}

/** Paths of files and folders between backticks: with a slash, or with an ending that our files have. Of `a/{b,c}.ts` each. */
function pathsNamedIn(text: string): string[] {
  return [...text.matchAll(/`([\w@.{},/-]+)`/g)]
    .map(([, named]) => named!)
    .filter(
      (named) =>
        !named.startsWith('/') &&
        (/^[\w@.][^/]*\/./.test(named) || /\.(tsx?|mjs|json|md|css|prisma)$/.test(named) || /^[\w-]+\/$/.test(named)),
    )
    .flatMap((named) => {
      const [, before, inside, after] = /^(.*)\{(.*)\}(.*)$/.exec(named) ?? []
      return inside === undefined ? [named] : inside.split(',').map((each) => `${before}${each}${after}`)
    })
}

/** Made while the product runs or is built, or inside an archive; or a media type. */
const MADE_LATER = /^(data|shots|dist)(\/|$)|\.tar\.gz$|^(archive|manifest)\.json$|^text\/|^application\//

const everyFile = ['server', 'web', 'seed', 'tests', 'prisma'].flatMap((folder) =>
  fs
    .readdirSync(path.join(project, folder), { recursive: true, encoding: 'utf8' })
    .map((file) => path.join(folder, file)),
)

/** Whether it is there from the project's folder, or as the end of some file's path, which is how a text beside the code names it. */
const isThere = (named: string): boolean => {
  const plain = named.replace(/\/$/, '')
  if (fs.existsSync(path.join(project, plain))) return true
  const end = `/${plain}`
  return everyFile.some(
    (file) => file.endsWith(end) || file.replace(/(\.test|\.db|\.routes)?\.tsx?$/, '').endsWith(end),
  )
}

it.each(documents)('%s names no script that package.json does not have', (document) => {
  const { scripts } = JSON.parse(read('package.json')) as { scripts: object }
  expect(scriptsNamedIn(read(document)).filter((name) => !(name in scripts))).toEqual([])
})

it.each(documents)('%s names no file or folder that is not there', (document) => {
  expect(pathsNamedIn(read(document)).filter((named) => !MADE_LATER.test(named) && !isThere(named))).toEqual([])
})

it('README.md names every setting that is read, and no other', () => {
  const inCode = [...read('server/config/config.ts').matchAll(/^ {2}([A-Z][A-Z_]+): z/gm)].map(([, name]) => name!)
  const named = [...read('README.md').matchAll(/^\| (.*?) \|/gm)].flatMap(([, cell]) =>
    [...cell!.matchAll(/`([A-Z][A-Z_]+)`/g)].map(([, name]) => name!),
  )
  expect(inCode).toContain('DATABASE_URL')
  expect(named.sort()).toEqual(inCode.sort())
})

it('sees the names in a text', () => {
  expect(documents).toEqual(expect.arrayContaining(['README.md', 'DEVELOPERS.md', 'server/SECURITY.md']))
  expect(scriptsNamedIn('`npm start`, then npm test -- a; npm run bench and npm run a:b')).toEqual([
    'start',
    'test',
    'bench',
    'a:b',
  ])
  expect(pathsNamedIn('in `a/{b,c}.ts`, `d.ts` and `e/`, not `f` or `GET /g/h`')).toEqual([
    'a/b.ts',
    'a/c.ts',
    'd.ts',
    'e/',
  ])
  expect(isThere('server/no-such-file.ts')).toBe(false)
})
