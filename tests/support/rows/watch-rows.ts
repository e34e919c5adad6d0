import fs from 'node:fs'
import { inject } from 'vitest'
import { type Prisma, PrismaClient } from '../../../server/db/generated/client.ts'
import { findMisfit } from './find-misfit.ts'
import { type RawQueries, type RawQuery, textOf } from './read-queries.ts'

/** What answers were other than their types say since it was taken last. */
export function takeMisfits(): string[] {
  const taken = [...misfits]
  misfits.clear()
  return taken
}

const misfits = new Set<string>()

const { list, answered } = inject('rawQueries')
const { shapes, queries } = JSON.parse(fs.readFileSync(list, 'utf8')) as RawQueries
const byText = new Map(queries.map((query) => [query.text, query]))
const byParts = new WeakMap<object, RawQuery>()
const withRows = new Set<RawQuery>()

function queryOf(parts: readonly string[]): RawQuery | undefined {
  const known = byParts.get(parts) ?? byText.get(textOf(parts))
  if (known) byParts.set(parts, known)
  return known
}

function look(query: RawQuery, rows: unknown): void {
  const misfit = findMisfit(shapes, query.answer, rows)
  if (misfit !== null) misfits.add(`${query.place}: ${misfit}`)
  if (withRows.has(query) || !Array.isArray(rows) || rows.length === 0) return
  withRows.add(query)
  fs.appendFileSync(answered, `${query.place}\n`)
}

const clients = PrismaClient.prototype as PrismaClient
const ask = clients.$queryRaw

/** Every client of the database, and every transaction of one, asks by this. */
clients.$queryRaw = function <Answer>(this: PrismaClient, ...question: Parameters<typeof ask>) {
  const asked: Prisma.PrismaPromise<Answer> = ask.apply(this, question) as never
  const [parts] = question
  const query = 'raw' in parts ? queryOf(parts) : undefined
  if (query === undefined) {
    misfits.add(`No query of the server: ${'raw' in parts ? parts.join('…') : parts.sql}`)
    return asked
  }
  const { then } = asked
  const watched: typeof then = (onAnswer, onError) =>
    then((rows) => {
      look(query, rows)
      return rows
    }).then(onAnswer, onError)
  // biome-ignore lint/suspicious/noThenProperty: it is one that Prisma has made to be awaited
  asked.then = watched
  asked.catch = (onError) => watched(undefined, onError)
  asked.finally = (onEnd) => watched().finally(onEnd)
  return asked
}
