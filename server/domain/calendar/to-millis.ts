/** Where a leap second stands in RFC 3339. */
const LEAP_SECOND = /^(.{17})60(\.\d+)?/

/**
 * An instant in whole milliseconds since 1970; further digits are cut off. A second `:60` is the last millisecond of its
 * minute, so that it stays on its day and comes after the rest of its minute.
 * In: RFC 3339 with an offset. Out: NaN for what is no instant.
 */
export function toMillis(instant: string): number {
  return Date.parse(instant.replace(LEAP_SECOND, '$159.999').replace(/(\.\d{3})\d+/, '$1'))
}
