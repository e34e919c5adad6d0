/** The first that fits: what others pretend to be comes last. */
const BROWSERS: readonly (readonly [RegExp, string])[] = [
  [/\bEdg(e|A|iOS)?\//, 'Edge'],
  [/\bOPR\/|\bOpera\b/, 'Opera'],
  [/\bSamsungBrowser\//, 'Samsung Internet'],
  [/\bFirefox\/|\bFxiOS\//, 'Firefox'],
  [/\b(Headless)?Chrome\/|\bCriOS\//, 'Chrome'],
  [/\bSafari\//, 'Safari'],
]

const SYSTEMS: readonly (readonly [RegExp, string])[] = [
  [/\biPhone\b/, 'iPhone'],
  [/\biPad\b/, 'iPad'],
  [/\bAndroid\b/, 'Android'],
  [/\bWindows\b/, 'Windows'],
  [/\bCrOS\b/, 'ChromeOS'],
  [/\bMacintosh\b/, 'Mac'],
  [/\bLinux\b/, 'Linux'],
]

const nameOf = (names: typeof BROWSERS, userAgent: string) => names.find(([sign]) => sign.test(userAgent))?.[1]

/** What a session was opened with, as its owner would call it, from the User-Agent header: "Firefox on Windows". */
export function deviceName(userAgent = ''): string {
  const browser = nameOf(BROWSERS, userAgent)
  const system = nameOf(SYSTEMS, userAgent)
  if (browser && system) return `${browser} on ${system}`
  return browser ?? system ?? 'A program'
}
