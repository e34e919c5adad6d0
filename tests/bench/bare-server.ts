import Fastify from 'fastify'
import pg from 'pg'
import { candidateSheets } from './read/hand-written/candidate-sheets.ts'
import { failingMeasures } from './read/hand-written/failing-measures.ts'
import { readiness, status } from './read/hand-written/readiness.ts'

/** As many as the product has. */
const CONNECTIONS = 10

/**
 * A process of its own that answers over Fastify and pg with nothing between: `select 1`, and the product's questions by
 * hand-written statements. It is sent the address of a database, sends its own back, and ends with who started it.
 */
process.once('message', (url: string) => serve(url))
process.once('disconnect', () => process.exit(0))

async function serve(connectionString: string): Promise<void> {
  const pool = new pg.Pool({ connectionString, max: CONNECTIONS })
  const app = Fastify()
  app.get('/select-1', async () => (await pool.query({ name: 'select-1', text: 'SELECT 1 AS one' })).rows[0])
  for (const { url, answer } of [readiness, status, failingMeasures, candidateSheets]) {
    app.get<{ Querystring: Record<string, string>; Params: Record<string, string> }>(url, async (request, reply) => {
      const text = await answer(pool, request.query, request.params)
      return reply.type('application/json; charset=utf-8').send(text)
    })
  }
  process.send!(await app.listen({ host: '127.0.0.1', port: 0 }))
}
