/** The clock time of an instant in an IANA time zone (of this device without one): "09:31". */
export const sayTime = (instant: string, timeZone: string | null | undefined): string =>
  new Intl.DateTimeFormat('en-GB', { timeZone: timeZone ?? undefined, hour: '2-digit', minute: '2-digit' }).format(
    new Date(instant),
  )
