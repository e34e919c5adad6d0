const hex = (byte: number): string => byte.toString(16).padStart(2, '0')

/** A random UUID (RFC 9562, version 4). Browsers have `crypto.randomUUID` only over TLS and on the machine itself. */
export const newId = (): string => {
  if (typeof crypto.randomUUID === 'function') return crypto.randomUUID()
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  bytes[6] = (bytes[6]! & 0x0f) | 0x40
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  const text = [...bytes].map(hex).join('')
  return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join('-')
}
