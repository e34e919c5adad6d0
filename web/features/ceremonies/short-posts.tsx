import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { sayNeed } from '../../domain/ceremonies/say-ceremony.ts'
import { sayWhyNot } from '../../domain/ceremonies/say-why-not.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import type { Words } from './use-words.ts'
import './short-posts.css'

interface ShortPostsProps {
  ceremony: CeremonyDetail
  words: Words
  onPost: (postId: string) => void
}

/** The posts that are not filled, with what they ask for and every reason. */
export function ShortPosts({ ceremony, words, onPost }: ShortPostsProps) {
  const short = ceremony.formation.filter(({ filled }) => !filled)
  if (short.length === 0) return <Empty>No post is short.</Empty>
  return (
    <ul className="short-posts">
      {short.map((post) => (
        <li key={post.id}>
          <b>{post.title}</b>
          <span className="muted">
            {[words.certificationTitle(post.certification), sayNeed(post)].filter(Boolean).join(' · ')}
          </span>
          <span className="short-why">
            {post.soldier
              ? `${post.soldier.grade} ${post.soldier.name}: ${post.soldier.whyNot.map((why) => sayWhyNot(why, words)).join('; ')}`
              : post.otherUnit
                ? 'A soldier of another unit is named who cannot stand.'
                : 'Nobody is named.'}
          </span>
          {ceremony.may !== 'look' && !(post.otherUnit && ceremony.may === 'name') && (
            <Button kind="quiet" className="no-print" onClick={() => onPost(post.id)}>
              Who could take it<span className="out-of-sight">: {post.title}</span>
            </Button>
          )}
        </li>
      ))}
    </ul>
  )
}
