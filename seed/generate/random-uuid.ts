import type { Random } from './random.ts'

/** An id as a device draws one: UUID version 4 (RFC 9562), its 122 free bits from the stream. */
export function randomUuid(random: Random): string {
  const digits = (count: number) =>
    random
      .integer(0, 16 ** count - 1)
      .toString(16)
      .padStart(count, '0')
  return `${digits(8)}-${digits(4)}-4${digits(3)}-${random.pick(['8', '9', 'a', 'b'])}${digits(3)}-${digits(12)}`
}
