import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'
import { ERROR_CODES } from '../../server/contract/error-codes.ts'

const project = path.resolve(import.meta.dirname, '../..')
const LIST = 'server/contract/error-codes.ts'

const sources = ['server', 'web'].flatMap((folder) =>
  fs
    .readdirSync(path.join(project, folder), { recursive: true, encoding: 'utf8' })
    .map((file) => path.join(folder, file))
    .filter((file) => /\.tsx?$/.test(file) && file !== LIST && !file.includes('/generated/'))
    .map((file) => ({ file, text: fs.readFileSync(path.join(project, file), 'utf8') })),
)

const serverText = sources
  .filter(({ file }) => file.startsWith('server/'))
  .map(({ text }) => text)
  .join('\n')

/** Beginnings of codes that are put together, as in `too-many-wrong-${what}`. */
const beginnings = [...serverText.matchAll(/`([a-z]+-[a-z-]+-)\$\{/g)].map(([, beginning]) => beginning!)

const isUsed = (code: string): boolean =>
  serverText.includes(`'${code}'`) || beginnings.some((beginning) => code.startsWith(beginning))

// That every code that is used is listed, the types see to: an error takes no other.
it.each(Object.entries(ERROR_CODES))('%s is used, has a status, and says what to do', (code, { status, remedy }) => {
  expect(isUsed(code)).toBe(true)
  expect(status.every((each) => each >= 400 && each < 600)).toBe(true)
  expect(remedy).toMatch(/^[A-Z].*[.]$/)
})

it('sees a code that nothing uses', () => {
  expect(isUsed('never-thrown')).toBe(false)
})

it('no problem is spelled out, with its prefix, anywhere but in the list', () => {
  expect(sources.filter(({ text }) => text.includes('reviewstand:problem:')).map(({ file }) => file)).toEqual([])
})
