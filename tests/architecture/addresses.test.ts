import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'

const web = path.resolve(import.meta.dirname, '../../web')
const sources = fs
  .readdirSync(web, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.tsx?$/.test(file))
  .map((file) => ({ file, text: fs.readFileSync(path.join(web, file), 'utf8') }))

/** Where somebody is led to an address that is written out. */
const spelledOut = (text: string): string[] =>
  text.match(/(href=\{?|\bgo\(|navigate\(|<Route path=\{?|\bto: )["'`]\/[a-z$][^"'`]*/g) ?? []

it('every address of the client is made from web/paths.ts', () => {
  expect(sources.length).toBeGreaterThan(300)
  expect(sources.flatMap(({ file, text }) => spelledOut(text).map((found) => `${file}: ${found}`))).toEqual([])
})

it('sees an address that is written out', () => {
  expect(spelledOut('<Link href="/stand">')).toHaveLength(1)
  expect(spelledOut("navigate('/people')")).toHaveLength(1)
  expect(spelledOut('<Link href={addressTo(paths.person, { id })}>')).toEqual([])
})
