import { OWN_ACTIONS, type Settings } from './settings.ts'

/** What a key does on the running sheet. */
export type KeyAction =
  | { readonly kind: 'mark'; readonly mark: 'correct' | 'incorrect' }
  | { readonly kind: 'fault'; readonly place: number }
  | { readonly kind: 'major'; readonly place: number }
  | { readonly kind: 'step'; readonly by: 1 | -1 }
  | { readonly kind: 'undo' | 'all correct' | 'readings' | 'cease' | 'overview' | 'more' }

interface Pressed {
  readonly key: string
  readonly code: string
  readonly shiftKey: boolean
  readonly ctrlKey: boolean
  readonly altKey: boolean
  readonly metaKey: boolean
  /** The key is held down. */
  readonly repeat: boolean
}

/** The action of a key; null where it has none. Letters note faults in their order; capitals lead elsewhere. */
export const actionOf = (pressed: Pressed, { keys, own }: Pick<Settings, 'keys' | 'own'>): KeyAction | null => {
  const { key, code, shiftKey, ctrlKey, altKey, metaKey, repeat } = pressed
  if (ctrlKey || altKey || metaKey || repeat) return null
  const clicked = OWN_ACTIONS.find((action) => own[action] === key)
  if (clicked) return clicked === 'undo' ? { kind: 'undo' } : { kind: 'mark', mark: clicked }
  if (!keys) return null
  if (shiftKey) {
    const digit = /^Digit([1-9])$/.exec(code)?.[1]
    if (digit) return { kind: 'major', place: Number(digit) - 1 }
    if (key === 'C') return { kind: 'cease' }
    if (key === 'O') return { kind: 'overview' }
    return key === 'M' ? { kind: 'more' } : null
  }
  if (key === '1' || key === '0') return { kind: 'mark', mark: key === '1' ? 'correct' : 'incorrect' }
  if (key === '3') return { kind: 'all correct' }
  if (key === '=') return { kind: 'readings' }
  if (key === 'Backspace') return { kind: 'undo' }
  if (key === 'ArrowLeft') return { kind: 'step', by: -1 }
  if (key === 'ArrowRight') return { kind: 'step', by: 1 }
  return /^[a-z]$/.test(key) ? { kind: 'fault', place: key.charCodeAt(0) - 97 } : null
}

/** The keys in words, for the page. */
export const KEY_WORDS: readonly (readonly [keys: readonly string[], what: string])[] = [
  [['1'], 'correct'],
  [['0'], 'incorrect'],
  [['3'], 'all called running correct'],
  [['a', 'b', 'c'], 'fault, by its letter'],
  [['='], 'readings; Enter comes back'],
  [['Backspace'], 'take the last step back'],
  [['←', '→'], 'the call before, the call after'],
  [['Shift 1', 'Shift 2'], 'a major measure'],
  [['Shift C'], 'cease'],
  [['Shift O'], 'all calls'],
  [['Shift M'], 'notes, void, settings'],
]
