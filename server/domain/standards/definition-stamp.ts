const OFFSET = 0xcbf29ce484222325n
const PRIME = 0x100000001b3n
const MASK = 0xffffffffffffffffn

/**
 * A short text that two definitions share when they say the same, whatever the order of their fields: FNV-1a, 64 bits, over
 * the JSON with sorted keys. It tells one state of a draft from another and protects nothing.
 */
export function definitionStamp(definition: unknown): string {
  let hash = OFFSET
  for (const sign of JSON.stringify(definition, sorted)) {
    hash = ((hash ^ BigInt(sign.codePointAt(0)!)) * PRIME) & MASK
  }
  return hash.toString(36)
}

const sorted = (_key: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
    : value
