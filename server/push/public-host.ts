import dns from 'node:dns'
import { isIP, type LookupFunction } from 'node:net'
import ipaddr from 'ipaddr.js'

/** Whether an address is one of the open Internet: not of this machine, its network, or anything else set apart. */
export function isPublicAddress(address: string): boolean {
  return ipaddr.isValid(address) && ipaddr.process(address).range() === 'unicast'
}

const isLoopbackAddress = (address: string): boolean =>
  ipaddr.isValid(address) && ipaddr.process(address).range() === 'loopback'

const LONGEST_ADDRESS = 2000

/** Whether a text can be the address of a subscription: `https` on its own port, without a name or password, no address set apart. */
export function isPublicEndpoint(text: string, allowLoopback = false): boolean {
  if (text.length > LONGEST_ADDRESS || !URL.canParse(text)) return false
  const { protocol, username, password, port, hostname } = new URL(text)
  if (protocol !== 'https:' || username !== '' || password !== '') return false
  const host = hostname.replace(/^\[(.*)\]$/, '$1')
  if (allowLoopback && (host === 'localhost' || isLoopbackAddress(host))) return true
  if (port !== '' || host === 'localhost' || host.endsWith('.localhost')) return false
  return isIP(host) === 0 ? host.includes('.') : isPublicAddress(host)
}

/**
 * Finds the addresses of a host, and fails where one of them is not public: the connection is made to the very address that
 * was looked at, so that a name that means another one a moment later gains nothing.
 */
export const lookUpPublic =
  (allowLoopback: boolean): LookupFunction =>
  (hostname, options, found) => {
    dns.lookup(hostname, { ...options, all: true }, (error, addresses) => {
      if (error) return found(error, '')
      const isAllowed = (address: string) => isPublicAddress(address) || (allowLoopback && isLoopbackAddress(address))
      const [first] = addresses
      if (!first || !addresses.every(({ address }) => isAllowed(address))) {
        return found(
          Object.assign(new Error('The host has an address that is not public.'), { code: 'ENOTPUBLIC' }),
          '',
        )
      }
      if (options.all) found(null, addresses)
      else found(null, first.address, first.family)
    })
  }
