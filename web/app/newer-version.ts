/** How browsers, and what brings the styles, say that a part of the app is not where it was. */
const MISSING = [
  /dynamically imported module/i,
  /importing a module script failed/i,
  /unable to preload css/i,
  /is not a valid javascript mime type/i,
]

/** Is it that a part of the app could not be loaded, which says nothing of the page itself? */
export const isMissingPart = (error: unknown): boolean =>
  error instanceof Error && MISSING.some((pattern) => pattern.test(error.message))

const ENTRY = /<script[^>]*\btype="module"[^>]*\bsrc="([^"]+)"/

const RELOADED_FOR = 'reviewstand.reloaded-for'

export type Version = { kind: 'newer'; entry: string } | { kind: 'same' } | { kind: 'no-answer' }

/** Compares the app that runs here with the one the server hands out now, by the script each begins with. */
export async function compareVersions(): Promise<Version> {
  try {
    const answer = await fetch('/', { cache: 'no-store', headers: { accept: 'text/html' } })
    const entry = ENTRY.exec(await answer.text())?.[1]
    if (!answer.ok || !entry) return { kind: 'no-answer' }
    const own = document.querySelector<HTMLScriptElement>('script[type=module][src]')?.getAttribute('src')
    return entry === own ? { kind: 'same' } : { kind: 'newer', entry }
  } catch {
    return { kind: 'no-answer' }
  }
}

/** Loads the page anew for a newer version, once for each, so that it never goes round in circles. False: it was done before. */
export function reloadFor(entry: string): boolean {
  try {
    if (sessionStorage.getItem(RELOADED_FOR) === entry) return false
    sessionStorage.setItem(RELOADED_FOR, entry)
  } catch {
    return false
  }
  location.reload()
  return true
}
