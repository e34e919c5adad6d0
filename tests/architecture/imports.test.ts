import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, it } from 'vitest'
import { brokenRules } from './direction-rules.ts'
import { findCycle } from './find-cycle.ts'
import { type Import, type Module, readImports } from './read-imports.ts'

const project = path.resolve(import.meta.dirname, '../..')
const { imports: aliases } = JSON.parse(fs.readFileSync(path.join(project, 'package.json'), 'utf8'))

function sourcesIn(folder: string): Map<string, string> {
  const files = fs
    .readdirSync(path.join(project, folder), { recursive: true, encoding: 'utf8' })
    .map((name) => path.posix.join(folder, name.replaceAll(path.sep, '/')))
    .filter((file) => /\.tsx?$/.test(file) && !file.endsWith('.d.ts') && !file.startsWith('server/db/generated/'))
  return new Map(files.map((file) => [file, fs.readFileSync(path.join(project, file), 'utf8')]))
}

/** Large, and needed where a passkey is used, a workbook is written, a password is chosen, mail is sent, a plan is solved. */
const LATE = /^(@simplewebauthn\/server|write-excel-file|@zxcvbn-ts\/|nodemailer|highs)/

const isAtOnce = ({ isTypeOnly, isLate }: Import) => !isTypeOnly && !isLate

/** What is read before the first line of a file runs: the file, what it imports, and so on. */
function reachedAtOnce(file: string, modules: readonly Module[]): Set<Module> {
  const byFile = new Map(modules.map((each) => [each.file, each]))
  const reached = new Set<Module>()
  for (let next = [file]; next.length > 0; ) {
    const found = next.flatMap((each) => byFile.get(each) ?? []).filter((each) => !reached.has(each))
    for (const each of found) reached.add(each)
    next = found.flatMap(({ imports }) => imports.filter(isAtOnce).flatMap((each) => each.file ?? []))
  }
  return reached
}

describe('the imports of the project', () => {
  const modules = ['server', 'web', 'seed'].map((folder) => readImports(sourcesIn(folder), aliases))
  const all = modules.flat()

  it('are seen', () => {
    for (const part of modules) {
      expect(part.length).toBeGreaterThan(5)
      expect(part.flatMap(({ imports }) => imports).length).toBeGreaterThan(5)
    }
    const toFiles = all.flatMap(({ imports }) => imports.flatMap(({ file }) => file ?? []))
    expect(toFiles.filter((file) => !fs.existsSync(path.join(project, file)))).toEqual([])
  })

  it('go in the allowed directions', () => {
    expect(brokenRules(all)).toEqual([])
  })

  it('go round in no circle', () => {
    expect(findCycle(all)).toBeNull()
  })

  it('of what few requests need wait for the first of them', () => {
    const reached = new Map([...reachedAtOnce('server/main.ts', all)].map((each) => [each.file, each]))
    expect(reached.size).toBeGreaterThan(300)
    const packages = [...reached.values()].flatMap(({ imports }) => imports.filter(isAtOnce))
    const named = new Set(packages.flatMap(({ file, specifier }) => (file === null ? specifier : [])))
    expect(named).toContain('fastify')
    expect([...named].filter((name) => LATE.test(name))).toEqual([])
    expect([...reached.keys()].filter((file) => /^seed\//.test(file))).toEqual([])
  })

  it('of Prisma stand in the data layer alone', () => {
    const others = [...all, ...readImports(sourcesIn('tests'), aliases)].filter(({ file, imports }) => {
      const isPrisma = imports.some(
        (each) => /^@prisma\/|^prisma/.test(each.specifier) || /db\/generated\//.test(each.file ?? ''),
      )
      return isPrisma && !/^(server\/([\w-]+\/)?db|seed|tests\/support)\//.test(file)
    })
    expect(others.map(({ file }) => file)).toEqual([])
  })
})

describe('the check', () => {
  const check = (file: string, source: string) => brokenRules(readImports(new Map([[file, source]]), aliases))

  it.each([
    ['server/domain/scoring/a.ts', "import { z } from 'zod'"],
    ['server/domain/scoring/a.ts', "import fs from 'node:fs'"],
    ['server/domain/scoring/a.ts', "import type { A } from '../../contract/sheets.ts'"],
    ['server/contract/a.ts', "export { a } from '../domain/a.ts'\nexport const b = 1"],
    ['server/sheets/services/a.ts', "import { PrismaClient } from '../../db/generated/client.ts'"],
    ['server/sheets/services/a.ts', "import Fastify from 'fastify'"],
    ['server/sheets/services/a.ts', "import { Sheet } from '../../contract/sheets/sheets.ts'"],
    ['server/sheets/services/a.ts', "const later = () => import('../routes/sheets.routes.ts')"],
    ['server/sheets/routes/a.routes.ts', "import { findSheet } from '../db/sheets.db.ts'"],
    ['server/sheets/db/a.db.ts', "let a: import('../services/a.ts').A"],
    ['server/standards/services/a.ts', "import { submitSheet } from '../../sheets/services/submit-sheet.ts'"],
    ['server/soldiers/db/a.db.ts', "import type { Row } from '../../readiness/db/retests.db.ts'"],
    ['server/process/start/a.ts', "import { buildApp } from '../../app.ts'"],
    ['web/ui/a.tsx', "import { useSheet } from '../api/sheets/sheets.ts'"],
    ['web/domain/a.ts', "import { Row } from '../ui/table.tsx'"],
    ['web/features/readiness/a.tsx', "import { Row } from '../sheets/row.tsx'"],
    ['web/features/readiness/a.tsx', "import { db } from '../../../server/db/client.ts'"],
    ['web/features/readiness/a.tsx', "import fs from 'node:fs'"],
    ['seed/a.ts', "import { buildApp } from '../server/app.ts'"],
    ['server/sheets/services/all.ts', "export * from './a.ts'\nexport { b } from './b.ts'"],
    ['server/sheets/services/a.ts', 'export const port = process.env.PORT'],
    ['server/sheets/services/utils.ts', 'export const a = 1'],
    ['server/elsewhere/services/a.ts', 'export const a = 1'],
    ['elsewhere/a.ts', 'export const a = 1'],
  ])('reports %s: %s', (file, source) => {
    expect(check(file, source)).toHaveLength(1)
  })

  it('lets through what is allowed', () => {
    expect(
      check('server/sheets/services/a.ts', "import type { Sheet } from '../../contract/sheets/sheets.ts'"),
    ).toEqual([])
    expect(check('web/features/readiness/a.tsx', "import { Sheet } from '#contract/sheets/sheets.ts'")).toEqual([])
  })

  it('finds circles, over types and later imports too', () => {
    const sources = new Map([
      ['server/domain/a.ts', "import { b } from './b.ts'"],
      ['server/domain/b.ts', "import type { C } from './c.ts'"],
      ['server/domain/c.ts', "export const a = () => import('./a.ts')"],
    ])
    const names = ['a', 'b', 'c', 'a'].map((name) => `server/domain/${name}.ts`)
    expect(findCycle(readImports(sources, aliases))).toEqual(names)
  })

  it('fails on a file it can not read', () => {
    expect(() => check('server/domain/a.ts', 'import {')).toThrow('server/domain/a.ts')
  })
})
