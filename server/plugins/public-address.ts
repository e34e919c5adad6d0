import type { FastifyInstance } from 'fastify'
import { type Config, isLoopback } from '../config/config.ts'

/**
 * Where people open the server, as scheme, host and port: as the setting says; else, where it is for this machine alone and
 * nothing stands in front, where it listens. Null: nobody has said.
 */
export const publicAddress =
  (app: FastifyInstance, { address, host, trustProxy }: Partial<Config>): (() => string | null) =>
  () => {
    if (address) return address
    const isForThisMachine = (host === undefined || isLoopback(host)) && !trustProxy?.length
    return isForThisMachine && app.server.listening ? app.listeningOrigin : null
  }
