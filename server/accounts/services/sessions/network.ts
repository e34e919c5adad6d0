import ipaddr from 'ipaddr.js'

/** What wrong passwords are counted by: an IPv4 address; of IPv6 the /64, which one customer has whole. */
export function networkOf(address: string): string {
  if (!ipaddr.isValid(address)) return address
  const ip = ipaddr.process(address)
  return ip instanceof ipaddr.IPv6 ? `${firstParts(ip, 4)}::` : ip.toString()
}

/** Whence a session is, as its owner is told: no finer than a /24 of IPv4 or a /48 of IPv6. */
export function coarseNetwork(address: string): string {
  if (!ipaddr.isValid(address)) return 'unknown'
  const ip = ipaddr.process(address)
  if (ip.range() === 'loopback') return 'the server itself'
  return ip instanceof ipaddr.IPv6 ? `${firstParts(ip, 3)}::x` : `${ip.octets.slice(0, 3).join('.')}.x`
}

const firstParts = ({ parts }: ipaddr.IPv6, count: number): string =>
  parts
    .slice(0, count)
    .map((part) => part.toString(16))
    .join(':')
