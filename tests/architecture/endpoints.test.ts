import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'
import { listedEndpoints } from '../support/listed-endpoints.ts'

const project = path.resolve(import.meta.dirname, '../..')
const listed = listedEndpoints()

const filesOf = (folder: string, pattern: RegExp) =>
  fs
    .readdirSync(path.join(project, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => pattern.test(file))
    .map((file) => ({ file: path.join(folder, file), text: fs.readFileSync(path.join(project, folder, file), 'utf8') }))

/** Where an address of the API is written out. */
const spelledOut = (text: string): string[] => text.match(/(["'`]|: |\b[A-Z]+ )\/api\/\w+/g) ?? []

/** What a routes file registers: the subject whose list it uses, the endpoint, and the id its operation has in the description. */
const registeredIn = (text: string) => {
  const subject = /import \* as endpoints from '[./]*contract\/([^/]+)\/endpoints\.ts'/.exec(text)?.[1]
  return [...text.matchAll(/\broute\(app, endpoints\.(\w+), \{.*?operationId: '(\w+)'/gs)].map(
    ([, endpoint, operationId]) => ({ name: `${subject}.${endpoint}`, operationId: `${subject}.${operationId}` }),
  )
}

it('every method and path is written once, in the list of its subject', () => {
  const operations = listed.map(({ operation }) => operation)
  expect(operations.length).toBeGreaterThan(190)
  expect(operations.filter((operation) => !/^(GET|POST|PUT|PATCH|DELETE) \/api\/[\w/:.-]+$/.test(operation))).toEqual(
    [],
  )
  expect(new Set(operations).size).toBe(operations.length)
})

it('every endpoint is registered once, by the name it has in the description', () => {
  const registered = filesOf('server', /\.routes\.ts$/).flatMap(({ text }) => registeredIn(text))
  expect(registered.filter(({ name, operationId }) => name !== operationId)).toEqual([])
  expect(registered.map(({ name }) => name).sort()).toEqual(
    listed.map(({ subject, name }) => `${subject}.${name}`).sort(),
  )
})

it('no route is registered otherwise, but one that is not under /api', () => {
  const others = filesOf('server', /\.routes\.ts$/).flatMap(({ file, text }) =>
    [...text.matchAll(/\b\w+\.(route|get|put|post|patch|delete)\(/g)].map(([call]) => `${file}: ${call}`),
  )
  expect(others).toEqual(['server/calendar/routes/calendar.routes.ts: app.route('])
})

it('the browser spells out no address of the API', () => {
  const sources = filesOf('web', /\.(tsx?|js|html)$/)
  expect(sources.length).toBeGreaterThan(300)
  expect(sources.flatMap(({ file, text }) => spelledOut(text).map((found) => `${file}: ${found}`))).toEqual([])
})

it('a list of endpoints holds text and types, and nothing that runs', () => {
  const lists = filesOf('server/contract', /(^|\/)endpoints?\.ts$/)
  expect(lists.length).toBeGreaterThan(15)
  expect(lists.flatMap(({ text }) => text.match(/^import (?!type\b).*/gm) ?? [])).toEqual([])
  const lines = lists.flatMap(({ text }) => text.match(/^export const .*/gm) ?? [])
  expect(lines.length).toBe(listed.length)
})

it('sees an address that is written out', () => {
  expect(spelledOut("fetch('/api/retests')")).toHaveLength(1)
  expect(spelledOut('`/api/backups/today/file`')).toHaveLength(1)
  expect(spelledOut("'GET /api/retests'")).toHaveLength(1)
  expect(spelledOut("import { call } from '../api/client.ts'")).toEqual([])
})
