/** Address with several hosts in it, as libpq takes them (PostgreSQL 17, 32.1.1.2): scheme and account, hosts, the rest. */
const PARTS = /^(postgres(?:ql)?:\/\/(?:[^/?#]*@)?)([^/?#@]*)(.*)$/

/** Who is wanted of several servers, as libpq names it (PostgreSQL 17, 32.1.2). */
const SESSION_ATTRIBUTES = ['any', 'read-write', 'read-only', 'primary', 'standby', 'prefer-standby'] as const

/** The address of each host in the address of a database, in order, without `target_session_attrs`, which the driver does not know. */
export function addressesOf(url: string): string[] {
  const [, before = '', hosts = '', after = ''] = PARTS.exec(url) ?? []
  const rest = after.replace(/([?&])target_session_attrs=[^&]*(&|$)/, (_, first, last) => (last === '&' ? first : ''))
  return hosts.split(',').map((host) => `${before}${host}${rest}`)
}

/** Who is wanted by an address of a database; null: it does not say. */
export function sessionAttributesOf(url: string): string | null {
  const found = /[?&]target_session_attrs=([^&]*)/.exec(url)
  return found === null ? null : decodeURIComponent(found[1]!)
}

/** Whether a text is the address of a PostgreSQL, each of its hosts with a database. */
export function isPostgresUrl(text: string): boolean {
  const attributes = sessionAttributesOf(text)
  return addressesOf(text).every(isAddress) && (attributes === null || SESSION_ATTRIBUTES.includes(attributes as never))
}

/** What we need of several servers: one that writes. Where it is not said, we look for it all the same. */
const WRITING: (string | null)[] = [null, 'read-write', 'primary']

/** Whether it is the address of one that is asked for where writes go. */
export const isWritingUrl = (text: string): boolean =>
  isPostgresUrl(text) && WRITING.includes(sessionAttributesOf(text))

const isAddress = (text: string): boolean =>
  URL.canParse(text) && /^postgres(ql)?:$/.test(new URL(text).protocol) && new URL(text).pathname.length > 1
