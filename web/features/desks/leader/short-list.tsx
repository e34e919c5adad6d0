import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { ManningProposal } from '#contract/plans/manning.ts'
import { nameSoldiers } from '../../../api/ceremonies/ceremonies.ts'
import { manningProposalQuery } from '../../../api/plans/manning-proposal.ts'
import { formatNamed } from '../../../domain/ceremonies/format-proposal.ts'
import { formatWhyNot, type WhyNotWords } from '../../../domain/ceremonies/format-why-not.ts'
import { Competing, ProposalBar, ProposedFor } from '../../../parts/ceremonies/proposal.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Disclosure } from '../../../ui/disclosure.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { UndoNotice } from '../../../ui/undo-notice.tsx'
import { counted } from '../../../words/format-number.ts'

interface ShortListProps extends WhyNotWords {
  ceremonyId: string
  posts: CeremonyDetail['formation']
  certificationTitle: (code: string) => string
  /** Stands open from the start. */
  open: boolean
}

interface Done {
  text: string
  version: number
  names: { postId: string; soldierId: string | null }[]
}

/** The short posts of a ceremony behind one line: each with the reason, and who could stand there, to be named with one click. */
export function ShortList({ ceremonyId, posts, certificationTitle, open, ...words }: ShortListProps) {
  const client = useQueryClient()
  const proposal = useQuery({ ...manningProposalQuery(ceremonyId), enabled: posts.length > 0 }).data
  const [done, setDone] = useState<Done | null>(null)
  const refresh = () => client.invalidateQueries({ queryKey: ['ceremonies'] })
  const take = useMutation({
    mutationFn: async (chosen: ManningProposal['posts']) => {
      const names = chosen.map(({ postId, soldier }) => ({ postId, soldierId: soldier.soldierId }))
      const { version } = await nameSoldiers(ceremonyId, proposal!.version, names)
      const before = names.map(({ postId }) => ({
        postId,
        soldierId: posts.find(({ id }) => id === postId)?.soldier?.id ?? null,
      }))
      setDone({ text: formatNamed(chosen, posts), version, names: before })
    },
    onSettled: refresh,
  })
  const undo = async () => {
    if (done) await nameSoldiers(ceremonyId, done.version, done.names)
    await refresh()
  }
  const said = done && <UndoNotice text={done.text} onUndo={undo} onClose={() => setDone(null)} />
  if (posts.length === 0) {
    return (
      <>
        {said}
        <p className="muted">No post is short.</p>
      </>
    )
  }
  return (
    <Disclosure title="Short" note={counted(posts.length, 'post')} open={open}>
      {said}
      {take.error && <Failure error={take.error} />}
      {proposal && <ProposalBar proposal={proposal} posts={posts} isBusy={take.isPending} onTake={take.mutate} />}
      <ul className="desk-short">
        {posts.map((post) => (
          <li key={post.id}>
            <Link href={addressTo(paths.ceremony, { id: ceremonyId, post: post.id })}>
              <b>{post.title}</b>
            </Link>{' '}
            <span className="muted">{certificationTitle(post.certification)}</span>
            <br />
            {post.soldier
              ? `${post.soldier.grade} ${post.soldier.name}: ${post.soldier.whyNot.map((why) => formatWhyNot(why, words)).join('; ')}`
              : post.otherUnit
                ? 'A soldier of another unit is named who cannot stand.'
                : 'Nobody is named.'}
            {proposal && <ProposedFor post={post} proposal={proposal} isBusy={take.isPending} onTake={take.mutate} />}
          </li>
        ))}
      </ul>
      {proposal && <Competing proposal={proposal} posts={posts} {...words} />}
    </Disclosure>
  )
}
