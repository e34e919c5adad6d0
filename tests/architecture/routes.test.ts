import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'
import { listedEndpoints } from '../support/listed-endpoints.ts'

const server = path.resolve(import.meta.dirname, '../../server')
/** Method and path of every endpoint by `<subject>.<name>`. */
const endpoints = new Map(listedEndpoints().map(({ subject, name, operation }) => [`${subject}.${name}`, operation]))

const routes = fs
  .readdirSync(server, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.routes.ts'))
  .flatMap((file) => {
    const source = fs.readFileSync(path.join(server, file), 'utf8')
    const subject = /contract\/([^/]+)\/endpoints\.ts'/.exec(source)?.[1]
    const listed = [...source.matchAll(/\broute\(app, endpoints\.(\w+)/g)].map(
      ([, name]) => endpoints.get(`${subject}.${name}`)!.split(' ')[1]!,
    )
    const written = [...source.matchAll(/url: '([^']+)'/g)].map(([, url]) => url!)
    return [...listed, ...written].map((url) => ({ file, prefix: prefixOf(url) }))
  })

/** The resource, and the part of it that is named next: `/api/soldiers/absences` of `/api/soldiers/:id/absences/:absence`. */
function prefixOf(url: string): string {
  return url
    .split('/')
    .filter((part) => !part.startsWith(':'))
    .slice(0, 4)
    .join('/')
}

it('a routes file owns the addresses under its prefixes', () => {
  const spread = [...new Set(routes.map(({ prefix }) => prefix))]
    .map((prefix) => ({
      prefix,
      files: [...new Set(routes.filter((each) => each.prefix === prefix).map(({ file }) => file))],
    }))
    .filter(({ files }) => files.length > 1)
  expect(routes.length).toBeGreaterThan(100)
  expect(spread).toEqual([])
})

it('finds the prefix of an address', () => {
  expect(prefixOf('/api/soldiers/:id')).toBe('/api/soldiers')
  expect(prefixOf('/api/soldiers/:id/absences/:absence')).toBe('/api/soldiers/absences')
})
