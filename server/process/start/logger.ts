import { pino } from 'pino'
import type { Config } from '../../config/config.ts'

interface Entry {
  level: number
  time: number
  msg?: string
  reqId?: string
  err?: { message: string; stack?: string }
}

/**
 * The log, on standard error: JSON for machines, and at a terminal lines to be read, without stack traces unless the
 * level is debug or lower.
 */
export function createLogger({ logLevel }: Pick<Config, 'logLevel'>, isTerminal = process.stderr.isTTY) {
  const withStack = logLevel === 'debug' || logLevel === 'trace'
  const write = (line: string) => process.stderr.write(isTerminal ? readable(JSON.parse(line), withStack) : line)
  return pino(
    { level: logLevel, base: null, serializers: { err: plainError, req: plainRequest, res: () => undefined } },
    { write },
  )
}

/** An error without what it carries along: causes and details of PostgreSQL quote rows, and so names. */
function plainError(error: unknown) {
  if (!(error instanceof Error)) return { type: typeof error, message: 'Something that is no error was thrown' }
  const message = withoutValues(error.message)
  const frames = error.stack?.split('\n').filter((line) => /^\s+at /.test(line)) ?? []
  const stack = [`${error.name}: ${message}`, ...frames].join('\n')
  return { type: error.name, message, stack, code: (error as NodeJS.ErrnoException).code }
}

/** Prisma quotes the whole question before it says what is wrong, and PostgreSQL the values it could not read (class 22). */
function withoutValues(message: string): string {
  const isPrisma = /^\s*Invalid `.*` invocation/.test(message)
  const said = isPrisma ? (message.trim().split('\n\n').at(-1) ?? '').trim() : message
  return /Code: `22/.test(said) ? said.replaceAll(/"[^"]*"/g, '"…"') : said
}

/** A request without its headers and without the query of its address, in which names may be searched for. */
function plainRequest({ method, url }: { method?: string; url?: string }) {
  return { method, path: url?.split('?', 1)[0] }
}

/** One log entry as a line, like "12:03:04 warning: the message (request req-1)". */
export function readable({ level, time, msg, reqId, err }: Entry, withStack: boolean): string {
  const parts = [msg, err !== undefined && err.message !== msg ? err.message : undefined].filter(Boolean)
  const line = `${new Date(time).toTimeString().slice(0, 8)} ${levelName(level)}: ${parts.join(': ')}`
  const stack = withStack && err?.stack !== undefined ? `\n${err.stack}` : ''
  return `${line}${reqId === undefined ? '' : ` (request ${reqId})`}${stack}\n`
}

function levelName(level: number): string {
  if (level >= 50) return 'error'
  if (level >= 40) return 'warning'
  return level >= 30 ? 'note' : 'detail'
}
