import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'

const web = path.resolve(import.meta.dirname, '../../web')
const files = fs
  .readdirSync(web, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.tsx?$/.test(file))
  .map((file) => ({ file, text: fs.readFileSync(path.join(web, file), 'utf8') }))

const contract = (name: string) => fs.readFileSync(path.resolve(web, '../server/contract', name), 'utf8')

/** Imports of values, not of types alone, from files of the contract that make schemas. */
const schemasIn = (text: string): string[] =>
  [...text.matchAll(/^import (?!type\b)[^']*?from '#contract\/([^']+)'/gm)]
    .map(([, name]) => name!)
    .filter((name) => contract(name).includes("from 'zod'"))

it('finds the imports it looks for', () => {
  expect(schemasIn("import { SheetBody } from '#contract/sheets/sheets.ts'")).toEqual(['sheets/sheets.ts'])
  expect(schemasIn("import type { SheetBody } from '#contract/sheets/sheets.ts'")).toEqual([])
  expect(files.length).toBeGreaterThan(100)
})

it('only what reads what the device kept carries schemas; answers are typed by their endpoints', () => {
  const carrying = files.filter(({ text }) => schemasIn(text).length > 0)
  expect(carrying.filter(({ file }) => !/^features\//.test(file)).map(({ file }) => file)).toEqual([])
  expect(carrying.filter(({ text }) => !text.includes('no-run-time-code.ts')).map(({ file }) => file)).toEqual([])
})
