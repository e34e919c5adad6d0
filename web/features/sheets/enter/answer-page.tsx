import { useQuery } from '@tanstack/react-query'
import { useEffect, useRef } from 'react'
import { Link } from 'wouter'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { formatStored, formatWhyHeld } from '../../../domain/sheets/format-score.ts'
import { titleUnder } from '../../../domain/standards/titles.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Page } from '../../../ui/page.tsx'
import { today } from '../../../words/today.ts'
import type { Answered } from './use-desk.ts'

interface AnswerPageProps {
  answer: Answered
  onNext: () => void
  onTry: () => void
  onChange: () => void
  onDiscard: () => void
  children: React.ReactNode
}

const formatAnswer = ({ entry, sent }: Answered): string => {
  if (sent.kind === 'stored') return formatStored(sent.stored, entry.draft.purpose === 'practice')
  if (sent.kind === 'proposed')
    return `Proposed: the sheet, as ${sent.outcome}, takes effect once a second person confirms it, of the office or a commander.`
  if (sent.kind === 'taken') return 'This sheet is stored already, with other content.'
  return 'Not sent yet. It waits on this device and is tried again by itself.'
}

/** What became of the sheet that was just sent, and the way on; the next sheet is one key away. */
export function AnswerPage({ answer, onNext, onTry, onChange, onDiscard, children }: AnswerPageProps) {
  const { entry, sent } = answer
  const next = useRef<HTMLButtonElement>(null)
  const certifications = useQuery(certificationsQuery).data ?? []
  const titleOf = titleUnder(certifications, useQuery(standardsQuery).data ?? [])
  // biome-ignore lint/correctness/useExhaustiveDependencies: each new answer takes the focus
  useEffect(() => next.current?.focus(), [sent])
  return (
    <Page
      key="answer"
      title="Enter a sheet"
      answer={<span role="status">{formatAnswer(answer)}</span>}
      why={
        <>
          <bdi>{entry.draft.candidate?.text}</bdi>
          {'message' in sent && ` · ${sent.message}`}
        </>
      }
      focusElsewhere
    >
      {sent.kind === 'stored' && sent.stored.state === 'held' && (
        <ul className="enter-why">
          {formatWhyHeld(sent.stored, today(), titleOf).map((why) => (
            <li key={why}>{why}</li>
          ))}
        </ul>
      )}
      <p className="enter-send">
        <Button ref={next} kind="main" onClick={sent.kind === 'taken' ? onDiscard : onNext}>
          {sent.kind === 'taken' ? 'Keep the stored one' : 'Next sheet'}
        </Button>
        {sent.kind === 'later' && (
          <>
            <Button onClick={onTry}>Try now</Button>
            <Button onClick={onChange}>Change it</Button>
          </>
        )}
        {sent.kind !== 'later' && (
          <Link href={addressTo(paths.sheet, { id: entry.draft.id })}>The sheet as it is stored</Link>
        )}
      </p>
      {children}
    </Page>
  )
}
