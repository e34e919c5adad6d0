import { useMutation, useQuery } from '@tanstack/react-query'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { changeAlternates } from '../../api/ceremonies/ceremonies.ts'
import { manningProposalQuery } from '../../api/plans/manning-proposal.ts'
import { formatStood } from '../../domain/ceremonies/format-proposal.ts'
import { formatWhyNot } from '../../domain/ceremonies/format-why-not.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { plural } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import { SoldierField } from './soldier-field.tsx'
import type { Words } from './use-words.ts'
import './alternates.css'

type Alternate = CeremonyDetail['alternates'][number]

interface AlternatesProps {
  ceremony: CeremonyDetail
  words: Words
  onChanged: () => Promise<unknown>
}

/** Who steps in, in order, for any post or one; each with the posts they could take. */
export function Alternates({ ceremony, words, onChanged }: AlternatesProps) {
  const { id, version, alternates, formation, may } = ceremony
  const found = useQuery({ ...manningProposalQuery(id), enabled: may !== 'look' }).data
  // Only once the posts are settled as far as they can be: whoever is proposed for one is no alternate.
  const proposed = found?.version === version && found.posts.length === 0 ? found.alternates : []
  const change = useMutation({
    mutationFn: (after: readonly { id: string | null; soldierId: string | null; postIds: string[] }[]) =>
      changeAlternates(id, { version, alternates: [...after] }),
    onSettled: onChanged,
  })
  const stored = alternates.map((one) => ({ id: one.id, soldierId: null, postIds: one.postIds }))
  const move = (from: number, to: number) => {
    const after = [...stored]
    const [one] = after.splice(from, 1)
    if (one) change.mutate(after.toSpliced(to, 0, one))
  }
  return (
    <div className="alternates">
      {alternates.length === 0 && <Empty>No alternates yet.</Empty>}
      <ol>
        {alternates.map((one, index) => (
          <li key={one.id}>
            <span className="alternate-place">{index + 1}</span>
            <span className="alternate-who">
              <b>
                <bdi>{one.soldier ? `${one.soldier.grade} ${one.soldier.name}` : 'A soldier of another unit'}</bdi>
              </b>{' '}
              <span className={one.soldier?.canTake.length === 0 ? 'posts-short' : 'muted'}>
                {formatCanTake(one, formation.length)}
              </span>
              {one.soldier?.canTake.length === 0 && (
                <span className="small"> {one.soldier.whyNot.map((why) => formatWhyNot(why, words)).join('; ')}</span>
              )}
            </span>
            {may !== 'look' && !(one.otherUnit && may === 'name') && (
              <Tools
                one={one}
                index={index}
                formation={formation}
                isBusy={change.isPending}
                onPosts={(postIds) =>
                  change.mutate(stored.map((each, at) => (at === index ? { ...each, postIds } : each)))
                }
                onUp={() => move(index, index - 1)}
                onOff={() => change.mutate(stored.filter((_, at) => at !== index))}
              />
            )}
          </li>
        ))}
      </ol>
      {change.error && <Failure error={change.error} />}
      {proposed.length > 0 && (
        <p className="no-print">
          Proposed: {proposed.map((one) => `${one.grade} ${one.name}, ${formatStood(one)}`).join('; ')}.{' '}
          <Button
            disabled={change.isPending}
            onClick={() =>
              change.mutate([...stored, ...proposed.map(({ soldierId }) => ({ id: null, soldierId, postIds: [] }))])
            }
          >
            Add {proposed.length === 1 ? 'the one proposed' : `the ${proposed.length} proposed`}
          </Button>
        </p>
      )}
      {may !== 'look' && (
        <div className="no-print">
          <SoldierField
            label="Add an alternate"
            hint="By name or roster number."
            onSoldier={(soldierId) => change.mutate([...stored, { id: null, soldierId, postIds: [] }])}
          />
        </div>
      )}
    </div>
  )
}

const formatCanTake = ({ soldier, postIds }: Alternate, posts: number): string => {
  if (!soldier) return ''
  const of = postIds.length || posts
  if (soldier.canTake.length === 0) return `can take no post${postIds.length > 0 ? ' of those' : ''}:`
  return `can take ${ofAll(soldier.canTake.length, of)} ${plural(of, 'post')}`
}

interface ToolsProps {
  one: Alternate
  index: number
  formation: CeremonyDetail['formation']
  isBusy: boolean
  onPosts: (postIds: string[]) => void
  onUp: () => void
  onOff: () => void
}

function Tools({ one, index, formation, isBusy, onPosts, onUp, onOff }: ToolsProps) {
  return (
    <span className="alternate-tools no-print">
      <SelectField
        label={`Steps in for, alternate ${index + 1}`}
        value={one.postIds.length > 1 ? 'several' : (one.postIds[0] ?? '')}
        onChange={(event) => {
          const postIds = event.target.value ? [event.target.value] : []
          onPosts(postIds)
        }}
      >
        <option value="">Any post</option>
        {one.postIds.length > 1 && <option value="several">{one.postIds.length} posts</option>}
        {formation.map((post) => (
          <option key={post.id} value={post.id}>
            {post.title}
          </option>
        ))}
      </SelectField>
      <Button disabled={index === 0 || isBusy} onClick={onUp}>
        Up<span className="out-of-sight">: alternate {index + 1}</span>
      </Button>
      <Button disabled={isBusy} onClick={onOff}>
        Take off<span className="out-of-sight">: alternate {index + 1}</span>
      </Button>
    </span>
  )
}
