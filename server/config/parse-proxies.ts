import ipaddr from 'ipaddr.js'

/**
 * Addresses of proxies, as TRUST_PROXY lists them: IP addresses and networks like 10.0.0.0/8, between commas.
 * Out: the list; null where a part is neither, or takes in all addresses there are, which would trust everybody.
 */
export function parseProxies(text: string): string[] | null {
  const parts = text.split(',').map((part) => part.trim())
  return parts.every(isProxy) ? parts : null
}

function isProxy(text: string): boolean {
  if (!text.includes('/')) return ipaddr.isValid(text) && /[.:]/.test(text)
  return ipaddr.isValidCIDR(text) && ipaddr.parseCIDR(text)[1] > 0
}
