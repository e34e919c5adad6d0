import { expect, it, vi } from 'vitest'
import { createLogger, readable } from '../../../server/process/start/logger.ts'

const time = new Date(2026, 2, 1, 9, 8, 7).getTime()

it('makes a line to be read of a log entry', () => {
  expect(readable({ level: 40, time, msg: 'Slow answer', reqId: 'req-7' }, false)).toBe(
    '09:08:07 warning: Slow answer (request req-7)\n',
  )
})

it('names an error once, and shows its stack only when asked to', () => {
  const err = { message: 'no such row', stack: 'Error: no such row\n    at there' }
  expect(readable({ level: 50, time, msg: 'no such row', err }, false)).toBe('09:08:07 error: no such row\n')
  expect(readable({ level: 60, time, msg: 'Unexpected', err }, false)).toBe('09:08:07 error: Unexpected: no such row\n')
  expect(readable({ level: 50, time, msg: 'no such row', err }, true)).toBe(
    '09:08:07 error: no such row\nError: no such row\n    at there\n',
  )
})

function logged(entry: object): string {
  const lines: string[] = []
  const written = vi.spyOn(process.stderr, 'write').mockImplementation((line) => lines.push(String(line)) > 0)
  try {
    createLogger({ logLevel: 'info' }, false).error(entry, 'Failed')
  } finally {
    written.mockRestore()
  }
  return lines.join('')
}

it('keeps what a request and an error carry along out of the log', () => {
  const detail = 'Key (name)=(Ashdown) already exists.'
  const err = Object.assign(new Error('It clashes', { cause: new Error('secret-cause') }), { code: 'P2002', detail })
  const headers = { cookie: 'reviewstand_session=secret-token', authorization: 'secret' }
  const line = logged({ err, req: { method: 'GET', url: '/api/soldiers?q=Ashdown', headers }, res: { headers } })
  const entry = JSON.parse(line)
  expect(entry).toMatchObject({ msg: 'Failed', err: { message: 'It clashes', code: 'P2002' } })
  expect(entry.err.stack).toMatch(/^Error: It clashes\n +at /)
  expect(entry.req).toEqual({ method: 'GET', path: '/api/soldiers' })
  expect(line).not.toMatch(/Ashdown|secret/)
})

// Messages as Prisma 7.10 gives them.
it.each([
  [
    '\nInvalid `prisma.account.create()` invocation:\n\n{\n  data: {\n    name: 5,\n    passwordHash: "Ashdown"\n  }\n}\n\nArgument `name`: Invalid value provided.',
    'Argument `name`: Invalid value provided.',
  ],
  [
    '\nInvalid `prisma.$executeRaw()` invocation:\n\n\nRaw query failed. Code: `22P02`. Message: `invalid input syntax for type uuid: "Ashdown"`',
    'Raw query failed. Code: `22P02`. Message: `invalid input syntax for type uuid: "…"`',
  ],
  [
    '\nInvalid `prisma.account.create()` invocation:\n\n\nUnique constraint failed on the constraint: `account_name`',
    'Unique constraint failed on the constraint: `account_name`',
  ],
])('says what failed without the values that were stored or asked for', (message, said) => {
  const line = logged({ err: new Error(message) })
  expect(JSON.parse(line).err.message).toBe(said)
  expect(line).not.toContain('Ashdown')
})
