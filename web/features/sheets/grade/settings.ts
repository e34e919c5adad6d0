const KEY = 'reviewstand.grading'

/** How somebody grades on this device. */
export interface Settings {
  /** The thumb that marks: the larger target lies under it. */
  readonly hand: 'right' | 'left'
  readonly vibrate: boolean
  /** Single keys mark and note. */
  readonly keys: boolean
}

const USUAL: Settings = { hand: 'right', vibrate: false, keys: true }

export const readSettings = (): Settings => {
  try {
    return { ...USUAL, ...(JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Settings>) }
  } catch {
    return USUAL
  }
}

export const keepSettings = (settings: Settings): void => {
  try {
    localStorage.setItem(KEY, JSON.stringify(settings))
  } catch {
    // They hold until the page is left.
  }
}
