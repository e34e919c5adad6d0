import { useMutation, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Ask } from '#contract/ceremonies/asks.ts'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { asksForQuery, askUnit, takeAskBack } from '../../api/ceremonies/asks.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import './asks.css'

interface AsksProps {
  ceremony: CeremonyDetail
  onChanged: () => Promise<unknown>
}

/** Other units are asked for a soldier for a short post, and what they answered. */
export function Asks({ ceremony, onChanged }: AsksProps) {
  const { data } = useQuery(asksForQuery(ceremony.id))
  const back = useMutation({ mutationFn: takeAskBack, onSettled: onChanged })
  const short = ceremony.formation.filter(({ filled }) => !filled)
  const isAsking = ceremony.cancelReason === null && short.length > 0 && (data?.units.length ?? 0) > 0
  if (!data || (data.items.length === 0 && !isAsking)) return null
  return (
    <Section title="Asked of other units" note="their leader names somebody, or says why not">
      {isAsking && <AskForm ceremonyId={ceremony.id} posts={short} units={data.units} onChanged={onChanged} />}
      {back.error && <Failure error={back.error} />}
      <ul className="asks">
        {data.items.map((ask) => (
          <li key={ask.id}>
            <span>
              <b>{ask.postTitle}</b>, <bdi>{ask.askedUnitName}</bdi>: {formatAnswer(ask)}
            </span>
            {ask.answer === null && (
              <Button kind="quiet" className="no-print" disabled={back.isPending} onClick={() => back.mutate(ask.id)}>
                Take it back
                <span className="out-of-sight">
                  : {ask.postTitle}, {ask.askedUnitName}
                </span>
              </Button>
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}

function formatAnswer({ answer, word }: Ask): string {
  if (answer === null) return 'no answer yet.'
  if (answer === 'yes') return 'yes, somebody is named.'
  return answer === 'no' ? `no. ${word}` : 'taken back.'
}

interface AskFormProps {
  ceremonyId: string
  posts: CeremonyDetail['formation']
  units: readonly { id: string; name: string }[]
  onChanged: () => Promise<unknown>
}

function AskForm({ ceremonyId, posts, units, onChanged }: AskFormProps) {
  const [post, setPost] = useState('')
  const [unit, setUnit] = useState('')
  const postId = posts.some(({ id }) => id === post) ? post : posts[0]!.id
  const unitId = unit || units[0]!.id
  const ask = useMutation({ mutationFn: () => askUnit(ceremonyId, { postId, unitId }), onSettled: onChanged })
  return (
    <form
      className="asks-form no-print"
      onSubmit={(event) => {
        event.preventDefault()
        ask.mutate()
      }}
    >
      <SelectField label="For the post" value={postId} onChange={(event) => setPost(event.target.value)}>
        {posts.map(({ id, title }) => (
          <option key={id} value={id}>
            {title}
          </option>
        ))}
      </SelectField>
      <SelectField label="Unit" value={unitId} onChange={(event) => setUnit(event.target.value)}>
        {units.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </SelectField>
      <Button type="submit" disabled={ask.isPending}>
        Ask for a soldier
      </Button>
      {ask.error && <Failure error={ask.error} />}
    </form>
  )
}
