const KEY = 'reviewstand.theme'

export const THEMES = [
  { choice: 'system', text: 'As the device' },
  { choice: 'light', text: 'Light' },
  { choice: 'dark', text: 'Dark' },
  { choice: 'sun', text: 'Sunlight' },
] as const

export type ThemeChoice = (typeof THEMES)[number]['choice']

/** The theme chosen on this device; `remembered-theme.js` has set it on the page before the first paint. */
export const themeChosen = (): ThemeChoice =>
  THEMES.find(({ choice }) => choice === document.documentElement.dataset.theme)?.choice ?? 'system'

/** Sets the theme and remembers it on this device; `system` follows the device. */
export const chooseTheme = (choice: ThemeChoice): void => {
  if (choice === 'system') delete document.documentElement.dataset.theme
  else document.documentElement.dataset.theme = choice
  try {
    localStorage.setItem(KEY, choice)
  } catch {
    // No storage allowed: the choice holds until the page is left.
  }
}
