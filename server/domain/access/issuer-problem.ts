/** As a parsed address writes this very machine. */
const LOOPBACK = /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])$/

/** What is wrong with an issuer's address: not one at all; not by TLS; with what no issuer has (OpenID Connect Discovery, section 3). */
export type IssuerProblem = 'no-address' | 'not-by-tls' | 'with-query'

/** In: the address as typed, and whether one on this very machine may go without TLS. Out: null where it can be an issuer. */
export function issuerProblem(issuer: string, allowsLoopback: boolean): IssuerProblem | null {
  if (!URL.canParse(issuer)) return 'no-address'
  const url = new URL(issuer)
  if (!mayBeAsked(url, allowsLoopback)) return 'not-by-tls'
  return url.search || url.hash || url.username || url.password || /[?#]/.test(issuer) ? 'with-query' : null
}

/** Whether the server may connect to an address of a provider. */
export const mayBeAsked = ({ protocol, hostname }: URL, allowsLoopback: boolean): boolean =>
  protocol === 'https:' || (allowsLoopback && protocol === 'http:' && LOOPBACK.test(hostname))
