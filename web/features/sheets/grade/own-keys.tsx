import { useState } from 'react'
import { Button } from '../../../ui/button.tsx'
import { OWN_ACTIONS, type OwnAction, type Settings } from './settings.ts'

const WORDS: Record<OwnAction, string> = { correct: 'Correct', incorrect: 'Incorrect', undo: 'Undo' }

interface OwnKeysProps {
  own: Settings['own']
  onOwn: (own: Settings['own']) => void
}

/** Keys of a clicker or of a remote for the camera: one presses the key that shall mark. */
export function OwnKeys({ own, onOwn }: OwnKeysProps) {
  const [waiting, setWaiting] = useState<OwnAction | null>(null)
  const take = (action: OwnAction, key: string) => {
    // A key does one thing.
    const others = Object.fromEntries(OWN_ACTIONS.map((one) => [one, own[one] === key ? '' : own[one]]))
    onOwn({ ...own, ...others, [action]: key })
    setWaiting(null)
  }
  return (
    <fieldset className="own-keys">
      <legend>Clicker or remote: which of its keys marks</legend>
      {OWN_ACTIONS.map((action) => (
        <span key={action}>
          <Button
            aria-pressed={waiting === action}
            onClick={() => setWaiting(waiting === action ? null : action)}
            onBlur={() => setWaiting(null)}
            onKeyDown={(event) => {
              if (waiting !== action || event.key === 'Tab') return
              event.preventDefault()
              if (event.key === 'Escape') setWaiting(null)
              else take(action, event.key)
            }}
          >
            {WORDS[action]}: {waiting === action ? 'press its key' : own[action] || 'no key'}
          </Button>
          {own[action] !== '' && (
            <Button kind="quiet" onClick={() => onOwn({ ...own, [action]: '' })}>
              none<span className="out-of-sight"> for {WORDS[action]}</span>
            </Button>
          )}
        </span>
      ))}
    </fieldset>
  )
}
