import { Validator } from '@seriousme/openapi-schema-validator'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { routesOf } from '../support/routes-of.ts'

interface Content {
  readonly [mediaType: string]: { readonly schema?: object }
}
interface Operation {
  readonly operationId?: string
  readonly summary?: string
  readonly tags?: readonly string[]
  readonly security?: readonly object[]
  readonly requestBody?: { readonly required?: boolean; readonly content: Content }
  readonly parameters?: readonly { readonly name: string; readonly in: string }[]
  readonly responses: Record<string, { readonly description: string; readonly content?: Content }>
}
type Document = {
  readonly openapi: string
  readonly paths: Record<string, Record<string, Operation>>
  readonly components: { readonly schemas: Record<string, object> }
}

let test: TestApp
let document: Document
let operations: { name: string; operation: Operation; path: string; method: string }[]
beforeAll(async () => {
  test = await buildTestApp()
  document = await test.nobody.get<Document>('/api/openapi.json')
  operations = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({
      name: `${method.toUpperCase()} ${path}`,
      operation,
      path,
      method,
    })),
  )
})
afterAll(() => test.close())

describe('the description of the API', () => {
  it('is valid by the schema that the OpenAPI Initiative publishes for version 3.1', async () => {
    expect(document.openapi).toMatch(/^3\.1\./)
    const validator = new Validator()
    expect(await validator.validate(structuredClone(document))).toEqual({ valid: true })
    expect(validator.version).toBe('3.1')
  })

  it('would not be valid with a mistake in it', async () => {
    const broken = { ...structuredClone(document), paths: { 'no-slash': {} } }
    expect((await new Validator().validate(broken)).valid).toBe(false)
  })

  it('says of every answer what it is', () => {
    const silent = operations.flatMap(({ name, operation }) =>
      Object.entries(operation.responses)
        .filter(([, { description }]) => !description || description === 'Default Response')
        .map(([status]) => `${name}: ${status}`),
    )
    expect(silent).toEqual([])
  })

  it('refers to nothing that is not in it', () => {
    const references = [...JSON.stringify(document).matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g)]
    const missing = references.map(([, name]) => name!).filter((name) => !document.components.schemas[name])
    expect(references.length).toBeGreaterThan(50)
    expect(missing).toEqual([])
  })

  it('has every route of the app, and no other', () => {
    const routes = routesOf(test.app).map(({ method, path }) => `${method} ${path.replace(/:(\w+)/g, '{$1}')}`)
    expect(operations.map(({ name }) => name).sort()).toEqual(routes.sort())
  })

  it('says of every operation what it is called, is for, and belongs to', () => {
    for (const { name, operation } of operations) {
      expect(operation.operationId, name).toMatch(/^[a-z][A-Za-z]+$/)
      expect(operation.summary, name).toMatch(/^[A-Z].{4,}[^.]$/)
      expect(operation.tags, name).toHaveLength(1)
    }
    const ids = operations.map(({ operation }) => operation.operationId)
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('says of every operation how it fails, as a problem', () => {
    for (const { name, operation, path, method } of operations) {
      const failures = Object.keys(operation.responses).filter((status) => /^[45]/.test(status))
      const expected = new Set(['500'])
      const isOpen = operation.security?.length === 0
      if (!isOpen) expected.add('401')
      if (operation.requestBody) for (const status of ['400', '413', '415', '422']) expected.add(status)
      if ((operation.parameters ?? []).some((one) => one.in !== 'header')) expected.add('400')
      if (path.includes('{') && method !== 'put') expected.add('404')
      for (const status of expected) expect(failures, `${name}: ${status}`).toContain(status)
      for (const status of failures) {
        const { content, description } = operation.responses[status]!
        expect(Object.keys(content ?? {}), `${name}: ${status}`).toEqual(['application/problem+json'])
        expect(content!['application/problem+json']!.schema).toEqual({ $ref: '#/components/schemas/Problem' })
        expect(description).not.toBe('Default Response')
      }
      expect(method).not.toBe('head')
    }
  })

  it('says of every operation what succeeds', () => {
    for (const { name, operation } of operations) {
      const successes = Object.entries(operation.responses).filter(([status]) => /^[23]/.test(status))
      expect(successes.length, name).toBeGreaterThan(0)
      for (const [status, { content }] of successes) {
        // A way back from another site leads on to a page.
        if (!['204', '302'].includes(status))
          expect(content?.['application/json']?.schema, `${name}: ${status}`).toBeTypeOf('object')
      }
    }
  })

  it('asks for a session or a token everywhere but where it says so', async () => {
    for (const { name, operation, path, method } of operations) {
      // Takes the cookie of a sign-in that is halfway, which is no session.
      if (path.startsWith('/api/session/factor')) continue
      const { status } = await test.nobody.tries(
        method.toUpperCase() as 'GET',
        path.replace(/\{\w+\}/g, crypto.randomUUID()),
      )
      expect(status === 401, name).toBe(operation.security?.length !== 0)
    }
  })

  it('names the calls that are fixed', () => {
    const fixed = `GET /api/health
      POST /api/session · GET /api/session · DELETE /api/session
      GET /api/units · POST /api/units
      GET /api/soldiers · POST /api/soldiers
      GET /api/soldiers/{id} · POST /api/soldiers/{id}/changes · GET /api/soldiers/{id}/status
      POST /api/soldiers/{id}/sponsorships · POST /api/soldiers/{id}/appointments · POST /api/soldiers/{id}/reviews
      POST /api/soldiers/{id}/withdrawals · POST /api/soldiers/{id}/awards
      GET /api/standards · POST /api/standards · POST /api/standards/{id}/publish
      GET /api/certifications · POST /api/certifications
      POST /api/sheets/score · PUT /api/sheets/{id} · GET /api/sheets/{id}
      POST /api/sheets/{id}/decision · POST /api/sheets/{id}/amendments
      POST /api/suspensions · POST /api/suspensions/{id}/lift
      GET /api/readiness · GET /api/retests · GET /api/findings/measures · GET /api/findings/sponsors`
    const names = operations.map(({ name }) => name)
    for (const call of fixed.split(/ · |\n\s*/)) expect(names).toContain(call)
  })
})
