import { useInfiniteQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { PostCandidate } from '#contract/ceremonies/manning.ts'
import { postCandidatesQuery } from '../../api/ceremonies/ceremonies.ts'
import { formatWhyNot } from '../../domain/ceremonies/format-why-not.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { counted } from '../../words/format-number.ts'
import { HeightForm } from './height-form.tsx'
import type { Words } from './use-words.ts'

interface CandidatesProps {
  ceremony: CeremonyDetail
  post: CeremonyDetail['formation'][number]
  words: Words
  isBusy: boolean
  onPick: (candidate: PostCandidate) => void
}

/** Who could take a post: those who can stand there, who stood least first; by a search anybody, with what speaks against them. */
export function Candidates({ ceremony, post, words, isBusy, onPick }: CandidatesProps) {
  const [typed, setTyped] = useState('')
  const asked = useDeferredValue(typed.trim())
  const list = useInfiniteQuery(postCandidatesQuery(ceremony.id, post.id, asked))
  const items = list.data?.pages.flatMap((page) => page.items)
  const isHeight = ({ whyNot }: PostCandidate) => whyNot.length === 1 && whyNot[0]?.reason === 'height not known'
  const shown = items
    ?.filter((one) => one.soldierId !== post.soldier?.id && (asked !== '' || one.whyNot.length === 0 || isHeight(one)))
    .sort((one, other) => Number(one.namedAs !== null) - Number(other.namedAs !== null))
  const hidden =
    (items?.length ?? 0) - (shown?.length ?? 0) - (items?.some((one) => one.soldierId === post.soldier?.id) ? 1 : 0)
  return (
    <section className="post-candidates">
      <h3>Who could take it</h3>
      <TextField
        label="Search all by name, grade or number"
        hint="Without a search: those who can stand there, fewest duties first."
        type="search"
        autoComplete="off"
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
      {list.error && <Failure error={list.error} onRetry={() => list.refetch()} />}
      {shown?.length === 0 && !list.hasNextPage && (
        <Empty>
          {asked
            ? 'Nobody in the unit matches.'
            : 'Nobody who may be named can stand there. Search for somebody to see what speaks against them.'}
        </Empty>
      )}
      <ul className="post-candidates-list">
        {shown?.map((one) => (
          <li key={one.soldierId}>
            <span>
              <b>
                <bdi>
                  {one.grade} {one.name}
                </bdi>
              </b>{' '}
              <span className="muted small">
                {one.rosterNumber}, {fullUnitName(words.units, one.unitId)} · {formatLoad(one)}
              </span>
            </span>
            <Button disabled={isBusy || one.namedAs === 'alternate'} onClick={() => onPick(one)}>
              {one.namedAs && one.namedAs !== 'alternate' ? 'Move' : 'Name'}
              <span className="out-of-sight">
                {' '}
                {one.grade} {one.name}
              </span>
            </Button>
            {one.whyNot.length > 0 && (
              <span className="post-candidate-why small">
                {one.whyNot.map((why) => formatWhyNot(why, words)).join('; ')}
              </span>
            )}
            {one.whyNot.some(({ reason }) => reason === 'height not known') && (
              <HeightForm soldierId={one.soldierId} name={`${one.grade} ${one.name}`} />
            )}
          </li>
        ))}
      </ul>
      {asked === '' && hidden > 0 && (
        <p className="muted small">
          {counted(hidden, 'other')} certified that day cannot stand: absent, on another duty or outside the height
          band. A search shows why.
        </p>
      )}
      <More hasMore={list.hasNextPage} loading={list.isFetchingNextPage} onMore={() => list.fetchNextPage()}>
        More soldiers
      </More>
    </section>
  )
}

const formatLoad = ({ duties, heightCm, namedAs }: PostCandidate): string =>
  [
    duties === 0 ? 'no ceremony in 90 days' : `${counted(duties, 'ceremony', 'ceremonies')} in 90 days`,
    heightCm === null ? '' : `${heightCm} cm`,
    namedAs === null ? '' : namedAs === 'alternate' ? 'an alternate here' : `now ${namedAs}`,
  ]
    .filter(Boolean)
    .join(' · ')
