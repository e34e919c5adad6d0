import { useMutation } from '@tanstack/react-query'
import { useEffect, useId, useRef } from 'react'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { PostCandidate } from '#contract/ceremonies/manning.ts'
import { formatNeed } from '../../domain/ceremonies/format-ceremony.ts'
import { formatWhyNot } from '../../domain/ceremonies/format-why-not.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Candidates } from './candidates.tsx'
import type { Words } from './use-words.ts'
import './post-dialog.css'

type Post = CeremonyDetail['formation'][number]

interface PostDialogProps {
  ceremony: CeremonyDetail
  post: Post
  words: Words
  onName: (text: string, names: { postId: string; soldierId: string | null }[]) => Promise<void>
  onClose: () => void
}

/** One post: what it asks for, who is named and what speaks against them, and who could take it, who stood least first. */
export function PostDialog({ ceremony, post, words, onName, onClose }: PostDialogProps) {
  const dialog = useRef<HTMLDialogElement>(null)
  const id = useId()
  useEffect(() => dialog.current?.showModal(), [])
  const act = useMutation({
    mutationFn: ({ text, names }: { text: string; names: { postId: string; soldierId: string | null }[] }) =>
      onName(text, names),
  })
  const { soldier } = post
  const pick = ({ soldierId, grade, name, namedAs }: PostCandidate) => {
    const before = ceremony.formation.find((other) => other.soldier?.id === soldierId)
    const text = `${grade} ${name} ${before ? 'moves' : 'is named'} to ${post.title}${namedAs && before ? ` from ${namedAs}` : ''}.`
    const freed = before ? [{ postId: before.id, soldierId: null }] : []
    act.mutate({ text, names: [{ postId: post.id, soldierId }, ...freed] })
  }
  return (
    <dialog ref={dialog} className="post-dialog" aria-labelledby={id} onClose={onClose}>
      <div className="post-dialog-head">
        <h2 id={id}>{post.title}</h2>
        <Button onClick={() => dialog.current?.close()}>Close</Button>
      </div>
      <p className="muted">
        {[words.certificationTitle(post.certification), formatNeed(post)].filter(Boolean).join(' · ')}
      </p>
      {act.error && <Failure error={act.error} />}
      {soldier ? (
        <div className="post-dialog-named">
          <p>
            <b>
              <bdi>
                {soldier.grade} {soldier.name}
              </bdi>
            </b>{' '}
            is named{soldier.whyNot.length === 0 ? ' and can stand.' : ', but cannot stand:'}
          </p>
          {soldier.whyNot.length > 0 && (
            <ul className="post-dialog-why">
              {soldier.whyNot.map((why) => (
                <li key={formatWhyNot(why, words)}>{formatWhyNot(why, words)}</li>
              ))}
            </ul>
          )}
          <Button
            disabled={act.isPending}
            onClick={() =>
              act.mutate({
                text: `${soldier.grade} ${soldier.name} is taken off ${post.title}.`,
                names: [{ postId: post.id, soldierId: null }],
              })
            }
          >
            Take off the post
          </Button>
        </div>
      ) : (
        <p>{post.otherUnit ? 'A soldier of another unit is named, whom you may not see.' : 'Nobody is named.'}</p>
      )}
      <Candidates ceremony={ceremony} post={post} words={words} isBusy={act.isPending} onPick={pick} />
    </dialog>
  )
}
