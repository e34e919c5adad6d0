import { useState } from 'react'
import { Button } from '../../../ui/button.tsx'
import { OWN_DEEDS, type OwnDeed, type Settings } from './settings.ts'

const WORDS: Record<OwnDeed, string> = { correct: 'Correct', incorrect: 'Incorrect', undo: 'Undo' }

interface OwnKeysProps {
  own: Settings['own']
  onOwn: (own: Settings['own']) => void
}

/** Keys of a clicker or of a remote for the camera: one presses the key that shall mark. */
export function OwnKeys({ own, onOwn }: OwnKeysProps) {
  const [waiting, setWaiting] = useState<OwnDeed | null>(null)
  const take = (deed: OwnDeed, key: string) => {
    // A key does one thing.
    const others = Object.fromEntries(OWN_DEEDS.map((one) => [one, own[one] === key ? '' : own[one]]))
    onOwn({ ...own, ...others, [deed]: key })
    setWaiting(null)
  }
  return (
    <fieldset className="own-keys">
      <legend>Clicker or remote: which of its keys marks</legend>
      {OWN_DEEDS.map((deed) => (
        <span key={deed}>
          <Button
            aria-pressed={waiting === deed}
            onClick={() => setWaiting(waiting === deed ? null : deed)}
            onBlur={() => setWaiting(null)}
            onKeyDown={(event) => {
              if (waiting !== deed || event.key === 'Tab') return
              event.preventDefault()
              if (event.key === 'Escape') setWaiting(null)
              else take(deed, event.key)
            }}
          >
            {WORDS[deed]}: {waiting === deed ? 'press its key' : own[deed] || 'no key'}
          </Button>
          {own[deed] !== '' && (
            <Button kind="quiet" onClick={() => onOwn({ ...own, [deed]: '' })}>
              none<span className="out-of-sight"> for {WORDS[deed]}</span>
            </Button>
          )}
        </span>
      ))}
    </fieldset>
  )
}
