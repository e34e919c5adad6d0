const formats = new Map<string, Intl.DateTimeFormat>()

/** Minutes by which a zone is ahead of UTC at an instant (milliseconds since 1970), by the time zone database at hand. */
export function offsetInZone(instant: number, timeZone: string): number {
  let format = formats.get(timeZone)
  if (!format) {
    format = new Intl.DateTimeFormat('en', { timeZone, timeZoneName: 'longOffset' })
    formats.set(timeZone, format)
  }
  const name = format.formatToParts(instant).find(({ type }) => type === 'timeZoneName')!.value
  const [, sign, hours, minutes] = /GMT(?:([+-])(\d\d):(\d\d))?/.exec(name)!
  return sign === undefined ? 0 : Number(`${sign}1`) * (Number(hours) * 60 + Number(minutes))
}
