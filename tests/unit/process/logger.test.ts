import { expect, it, vi } from 'vitest'
import { createLogger, readable } from '../../../server/process/logger.ts'

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

it('keeps what a request and an error carry along out of the log', () => {
  const lines: string[] = []
  const written = vi.spyOn(process.stderr, 'write').mockImplementation((line) => lines.push(String(line)) > 0)
  try {
    const log = createLogger({ logLevel: 'info' }, false)
    const detail = 'Key (name)=(Ashdown) already exists.'
    const err = Object.assign(new Error('It clashes', { cause: new Error('secret-cause') }), { code: 'P2002', detail })
    const headers = { cookie: 'reviewstand_session=secret-token', authorization: 'secret' }
    log.error({ err, req: { method: 'GET', url: '/api/soldiers?q=Ashdown', headers }, res: { headers } }, 'Failed')
  } finally {
    written.mockRestore()
  }
  const entry = JSON.parse(lines.join(''))
  expect(entry).toMatchObject({ msg: 'Failed', err: { message: 'It clashes', code: 'P2002' } })
  expect(entry.req).toEqual({ method: 'GET', path: '/api/soldiers' })
  expect(lines.join('')).not.toMatch(/Ashdown|secret/)
})
