const UNITS = ['kB', 'MB', 'GB', 'TB'] as const

/** A size with three figures at most, in units of a thousand: "812 bytes", "4.6 MB", "120 MB". */
export const formatBytes = (bytes: number): string => {
  if (bytes < 1000) return `${bytes} bytes`
  let size = bytes / 1000
  let unit = 0
  while (size >= 999.5 && unit < UNITS.length - 1) {
    size /= 1000
    unit += 1
  }
  return `${size < 9.95 ? size.toFixed(1) : Math.round(size)} ${UNITS[unit]}`
}
