import { offsetInZone } from '../../server/domain/calendar/offset-in-zone.ts'
import { instantInZone } from '../../server/domain/calendar/zoned-instant.ts'

const MINUTE = 60_000

export { instantInZone as instantAt }

/** An instant as RFC 3339 with the offset of a zone: `2026-03-02T09:31:00-05:00`. */
export function withOffset(instant: number, timeZone: string): string {
  const offset = offsetInZone(instant, timeZone)
  const local = new Date(instant + offset * MINUTE).toISOString().slice(0, 19)
  const two = (number: number) => String(number).padStart(2, '0')
  const size = Math.abs(offset)
  return `${local}${offset < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`
}
