const KEY = 'reviewstand.search-key'

/** Whether `/` opens the search on this device; it does unless it was turned off (WCAG 2.2, 2.1.4). */
export const isSearchKeyOn = (): boolean => {
  try {
    return localStorage.getItem(KEY) !== 'off'
  } catch {
    return true
  }
}

export const setSearchKey = (on: boolean): void => {
  try {
    localStorage.setItem(KEY, on ? 'on' : 'off')
  } catch {
    // No storage allowed: the key stays as it is.
  }
}

/** Is it the search key, and pressed where it is not text somebody types? */
export const opensSearch = (event: KeyboardEvent): boolean => {
  if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return false
  const at = event.target
  const isTyping = at instanceof HTMLElement && (at.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(at.tagName))
  return !isTyping && document.querySelector('dialog[open]') === null && isSearchKeyOn()
}
