/** Somewhere no page of ours is. */
const NOWHERE = 'http://nowhere.invalid'

/**
 * Where to go on our own pages. In: what a browser asked for. Out: the path, query and fragment as a browser would read them;
 * the overview where that leads to another server, or to no page.
 */
export function ownPath(asked: string): string {
  if (!asked.startsWith('/') || !URL.canParse(asked, NOWHERE)) return '/'
  const { origin, pathname, search, hash } = new URL(asked, NOWHERE)
  if (origin !== NOWHERE || /^\/[/\\]/.test(pathname) || /^\/api(\/|$)/i.test(pathname)) return '/'
  return pathname + search + hash
}
