import { useEffect, useRef } from 'react'
import { Link } from 'wouter'
import { Button } from '../../ui/button.tsx'
import type { Entry } from './entry-store.ts'
import { sayWhyHeld } from './say-entry.ts'
import type { Sent } from './send-entry.ts'

interface AnswerProps {
  entry: Entry
  sent: Exclude<Sent, { kind: 'refused' }>
  onNext: () => void
  onTry: () => void
  onChange: () => void
  onDiscard: () => void
}

/** What became of the sheet that was just sent, and the way on. */
export function Answer({ entry, sent, onNext, onTry, onChange, onDiscard }: AnswerProps) {
  const next = useRef<HTMLButtonElement>(null)
  useEffect(() => next.current?.focus(), [])
  const seeIt = <Link href={`/sheets/${entry.draft.id}`}>The sheet as it is stored</Link>
  return (
    <div className="enter-answer">
      {sent.kind === 'stored' && sent.stored.state === 'held' && (
        <ul className="enter-why">
          {sayWhyHeld(sent.stored).map((why) => (
            <li key={why}>{why}</li>
          ))}
        </ul>
      )}
      <p className="enter-send">
        {sent.kind === 'taken' ? (
          <Button ref={next} kind="main" onClick={onDiscard}>
            Keep the stored one
          </Button>
        ) : (
          <Button ref={next} kind="main" onClick={onNext}>
            Next sheet
          </Button>
        )}
        {sent.kind === 'later' && (
          <>
            <Button onClick={onTry}>Try now</Button>
            <Button onClick={onChange}>Change it</Button>
          </>
        )}
        {sent.kind !== 'later' && seeIt}
      </p>
    </div>
  )
}
