import { isIP } from 'node:net'
import type { FastifyRequest } from 'fastify'

/** From where a request comes: as a trusted proxy says, where that is an address; else who is connected to us. */
export const addressOf = ({ ip, socket }: Pick<FastifyRequest, 'ip' | 'socket'>): string =>
  isIP(ip.split('%')[0]!) ? ip : (socket.remoteAddress ?? '')
