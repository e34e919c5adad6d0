import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { AnswerBody, Ask } from '#contract/ceremonies/asks.ts'
import { answerAsk, askCandidatesQuery, openAsksQuery } from '../../../api/ceremonies/asks.ts'
import { formatNeed, formatTimes } from '../../../domain/ceremonies/format-ceremony.ts'
import { formatStood } from '../../../domain/ceremonies/format-proposal.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField, TextField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Section } from '../../../ui/section.tsx'
import { counted } from '../../../words/format-number.ts'

interface AskedOfUsProps {
  today: string
  zone: string | null
  certificationTitle: (code: string) => string
}

/** What other units ask this one for: a soldier is named, or it is said why not. */
export function AskedOfUs(words: AskedOfUsProps) {
  const asks = useQuery(openAsksQuery).data?.items ?? []
  const [done, setDone] = useState('')
  if (asks.length === 0 && !done) return null
  return (
    <Section title="Asked of you" note={counted(asks.length, 'soldier')}>
      {done && (
        <Notice>
          <p>{done}</p>
        </Notice>
      )}
      {asks.map((ask) => (
        <AskedFor key={ask.id} ask={ask} onDone={setDone} {...words} />
      ))}
    </Section>
  )
}

function AskedFor({ ask, onDone, today, zone, certificationTitle }: AskedOfUsProps & AskedForProps) {
  const client = useQueryClient()
  const candidates = useQuery(askCandidatesQuery(ask.id)).data?.items
  const [chosen, setChosen] = useState('')
  const [word, setWord] = useState('')
  const soldierId = chosen || candidates?.[0]?.soldierId
  const answer = useMutation({
    mutationFn: (body: AnswerBody) => answerAsk(ask.id, body),
    onSuccess: (_, body) => onDone(`${ask.unitName} is told: ${body.answer}, for ${ask.postTitle}.`),
    onSettled: () => client.invalidateQueries({ queryKey: ['ceremonies'] }),
  })
  return (
    <div className="desk-asked">
      <p>
        <b>
          <bdi>{ask.unitName}</bdi> asks for {ask.postTitle}, {ask.title}.
        </b>{' '}
        {formatTimes(ask, today, zone)}.{' '}
        {[certificationTitle(ask.certification), formatNeed(ask)].filter(Boolean).join(', ')}.
      </p>
      {candidates?.length === 0 && <p className="muted">None of yours can stand there.</p>}
      <div className="desk-answer">
        {candidates && candidates.length > 0 && (
          <>
            <SelectField label="Who" value={soldierId} onChange={(event) => setChosen(event.target.value)}>
              {candidates.map((one) => (
                <option key={one.soldierId} value={one.soldierId}>
                  {one.grade} {one.name}, {formatStood(one)}
                </option>
              ))}
            </SelectField>
            <Button
              kind="main"
              disabled={answer.isPending}
              onClick={() => answer.mutate({ answer: 'yes', soldierId: soldierId! })}
            >
              Yes, name them
            </Button>
          </>
        )}
        <TextField
          label="Or no, because"
          value={word}
          maxLength={400}
          onChange={(event) => setWord(event.target.value)}
        />
        <Button
          disabled={answer.isPending || word.trim() === ''}
          onClick={() => answer.mutate({ answer: 'no', word: word.trim() })}
        >
          Say no
        </Button>
      </div>
      {answer.error && <Failure error={answer.error} />}
    </div>
  )
}

interface AskedForProps {
  ask: Ask
  onDone: (text: string) => void
}
