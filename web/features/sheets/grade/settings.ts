const KEY = 'reviewstand.grading'

/** What a key of one's own can do on the running sheet. */
export const OWN_ACTIONS = ['correct', 'incorrect', 'undo'] as const

export type OwnAction = (typeof OWN_ACTIONS)[number]

/** How somebody grades on this device. */
export interface Settings {
  /** The thumb that marks: the larger target lies under it. */
  readonly hand: 'right' | 'left'
  readonly vibrate: boolean
  /** Single keys mark and note. */
  readonly keys: boolean
  /** Gauges are open on every trial, or open when somebody asks for one. */
  readonly readings: 'in doubt' | 'every trial'
  /** The keys of a clicker, by what they do; '' for none. */
  readonly own: Readonly<Record<OwnAction, string>>
}

const USUAL: Settings = {
  hand: 'right',
  vibrate: false,
  keys: true,
  readings: 'in doubt',
  own: { correct: 'PageDown', incorrect: 'PageUp', undo: '' },
}

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
