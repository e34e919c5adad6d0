import { useMutation, useQuery } from '@tanstack/react-query'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { ManningProposal } from '#contract/plans/manning.ts'
import { manningProposalQuery } from '../../api/plans/manning-proposal.ts'
import { formatNeed } from '../../domain/ceremonies/format-ceremony.ts'
import { formatWhyNot } from '../../domain/ceremonies/format-why-not.ts'
import { Competing, ProposalBar, ProposedFor } from '../../parts/ceremonies/proposal.tsx'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import type { Words } from './use-words.ts'
import './short-posts.css'

interface ShortPostsProps {
  ceremony: CeremonyDetail
  words: Words
  onPost: (postId: string) => void
  /** Names those proposed. */
  onTake: (posts: ManningProposal['posts']) => Promise<unknown>
}

/** The posts that are not filled: what they ask for, every reason, and who could stand there, to be named with one click. */
export function ShortPosts({ ceremony, words, onPost, onTake }: ShortPostsProps) {
  const found = useQuery({
    ...manningProposalQuery(ceremony.id),
    enabled: ceremony.may !== 'look' && ceremony.filled < ceremony.posts,
  }).data
  const take = useMutation({ mutationFn: onTake })
  const proposal = found?.version === ceremony.version ? found : undefined
  const short = ceremony.formation.filter(({ filled }) => !filled)
  if (short.length === 0) return <Empty>No post is short.</Empty>
  return (
    <>
      {proposal && (
        <ProposalBar proposal={proposal} posts={ceremony.formation} isBusy={take.isPending} onTake={take.mutate} />
      )}
      {take.error && <Failure error={take.error} />}
      <ul className="short-posts">
        {short.map((post) => (
          <li key={post.id}>
            <b>{post.title}</b>
            <span className="muted">
              {[words.certificationTitle(post.certification), formatNeed(post)].filter(Boolean).join(' · ')}
            </span>
            <span className="short-why">
              {post.soldier
                ? `${post.soldier.grade} ${post.soldier.name}: ${post.soldier.whyNot.map((why) => formatWhyNot(why, words)).join('; ')}`
                : post.otherUnit
                  ? 'A soldier of another unit is named who cannot stand.'
                  : 'Nobody is named.'}
            </span>
            {proposal && <ProposedFor post={post} proposal={proposal} isBusy={take.isPending} onTake={take.mutate} />}
            {ceremony.may !== 'look' && !(post.otherUnit && ceremony.may === 'name') && (
              <Button kind="quiet" className="no-print" onClick={() => onPost(post.id)}>
                Who could take it<span className="out-of-sight">: {post.title}</span>
              </Button>
            )}
          </li>
        ))}
      </ul>
      {proposal && <Competing proposal={proposal} posts={ceremony.formation} {...words} />}
    </>
  )
}
