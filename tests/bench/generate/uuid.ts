import type { Random } from '../../../seed/generate/random.ts'

/** A UUID of version 4 (RFC 9562) whose random bits come from a stream that can be repeated. */
export function uuid(random: Random): string {
  const hex = Array.from({ length: 4 }, () => random.integer(0, 0xffffffff).toString(16).padStart(8, '0')).join('')
  const variant = '89ab'[random.integer(0, 3)]
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-4${hex.slice(13, 16)}-${variant}${hex.slice(17, 20)}-${hex.slice(20)}`
}
