import { expect, it } from 'vitest'
import { readable } from '../../../server/process/logger.ts'

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
