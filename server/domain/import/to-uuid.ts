/**
 * An id that follows from what it names: a UUID of version 8 (RFC 9562, section 5.8) from the first 16 bytes of a hash.
 * In: at least 32 hexadecimal digits, as SHA-256 gives them. Out: in lower case.
 */
export function toUuid(hash: string): string {
  const variant = ((Number.parseInt(hash[16]!, 16) & 0b0011) | 0b1000).toString(16)
  return `${hash.slice(0, 8)}-${hash.slice(8, 12)}-8${hash.slice(13, 16)}-${variant}${hash.slice(17, 20)}-${hash.slice(20, 32)}`
}
