import { once } from 'node:events'
import { createServer } from 'node:net'
import type { FastifyInstance } from 'fastify'
import type { Config } from '../../config/config.ts'
import { StartProblem } from '../../config/start-problem.ts'
import { endsWithin } from './orderly-stop.ts'

type Address = Pick<Config, 'host' | 'port'>

const drainMs = 10_000

/** Fails at once, before anything long is begun, when the address could not be listened on. */
export async function checkAddress({ host, port }: Address): Promise<void> {
  const server = createServer()
  try {
    server.listen({ host, port })
    await once(server, 'listening')
  } catch (error) {
    throw explain(error, { host, port })
  } finally {
    server.close()
  }
}

/** @returns the address to open, like `http://127.0.0.1:4180` */
export async function listen(app: FastifyInstance, { host, port }: Address): Promise<string> {
  try {
    const opened = await app.listen({ host, port })
    const isEverywhere = host === '0.0.0.0' || host === '::'
    if (!isEverywhere) return opened
    const address = new URL(opened)
    address.hostname = 'localhost'
    return address.origin
  } catch (error) {
    throw explain(error, { host, port })
  }
}

/** Takes no more requests and lets those under way end, up to ten seconds; what is left then is cut. */
export async function stopListening(app: FastifyInstance): Promise<void> {
  const closed = app.close()
  if (!(await endsWithin(drainMs, closed))) app.server.closeAllConnections()
  await closed
}

function explain(cause: unknown, { host, port }: Address): unknown {
  switch ((cause as NodeJS.ErrnoException).code) {
    case 'EADDRINUSE':
      return new StartProblem(`Port ${port} of ${host} is in use. Stop what uses it, or set PORT to another one.`, {
        cause,
      })
    case 'EACCES':
      return new StartProblem(`Port ${port} needs special rights. Set PORT to one from 1024 up.`, { cause })
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return new StartProblem(`${host} is no address of this machine. Correct HOST.`, { cause })
    default:
      return cause
  }
}
