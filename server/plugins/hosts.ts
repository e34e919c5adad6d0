import os from 'node:os'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import { AppError } from '../errors.ts'

const LOOPBACK = ['localhost', '127.0.0.1', '[::1]']
const EVERYWHERE = ['0.0.0.0', '::']

/**
 * Refuses a request that names two hosts, or one that is not ours: another name that leads here is somebody else's, who
 * makes browsers take our pages for theirs (DNS rebinding).
 * In: the names, without ports, that are ours; null: any, as a proxy in front has already chosen.
 */
export function registerHosts(app: FastifyInstance, hosts: readonly string[] | null): void {
  const ours = hosts && new Set(hosts.map((host) => host.toLowerCase()))
  app.addHook('onRequest', async (request) => {
    if (namesOfHost(request).length > 1) {
      throw new AppError(
        'malformed-request',
        'two-hosts',
        'The request names more than one host. Send one Host header.',
      )
    }
    if (ours && !ours.has(request.hostname.toLowerCase())) {
      const detail =
        'This server does not go by that name. Open it under its own, or have REVIEWSTAND_HOSTS name this one.'
      throw new AppError('malformed-request', 'unknown-host', detail)
    }
  })
}

/** Node keeps the first of several only. */
const namesOfHost = ({ raw }: FastifyRequest): string[] =>
  raw.rawHeaders.filter((name, at) => at % 2 === 0 && name.toLowerCase() === 'host')

/** The names a server goes by that listens on a host: that one, and where it is loopback or everywhere those of this machine. */
export function hostsOf(host: string): string[] {
  const machine = Object.values(os.networkInterfaces()).flatMap((some) => some ?? [])
  const addresses = machine.map(({ address, family }) => (family === 'IPv6' ? `[${address.split('%')[0]}]` : address))
  if (EVERYWHERE.includes(host)) return [...LOOPBACK, os.hostname(), `${os.hostname()}.local`, ...addresses]
  return [...LOOPBACK, host.includes(':') ? `[${host}]` : host]
}
