import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies.ts'
import { familyName } from '../../model/say-person.ts'
import { STATE_WORDS, StateMark } from '../../ui/state-mark.tsx'
import { inRanks } from './in-ranks.ts'
import './formation.css'

type Post = CeremonyDetail['formation'][number]

/** The ceremony as it forms up, seen from the front: rank by rank, post by post, filled and not. */
export function Formation({ posts }: { posts: readonly Post[] }) {
  return (
    <ol className="formation" aria-label="Ranks, front rank first">
      {inRanks(posts).map((rank) => (
        <li key={rank[0]?.row} aria-label={`Rank ${rank[0]?.row}`}>
          <ol className="rank">
            {rank.map((post) => (
              <li key={post.id}>
                <PostBox post={post} />
              </li>
            ))}
          </ol>
        </li>
      ))}
    </ol>
  )
}

function PostBox({ post }: { post: Post }) {
  const { soldier } = post
  const filled = soldier !== null && soldier.whyNot.length === 0
  return (
    <div className={`post ${filled ? '' : 'post-short'}`}>
      <span className="post-mark">
        {soldier ? <StateMark state={soldier.status} size={22} /> : <span className="post-nobody" />}
      </span>
      <span className="post-title">{post.title}</span>
      {soldier ? (
        <Link href={`/candidates/${soldier.id}`} className="post-name">
          <bdi>
            {soldier.grade} {familyName(soldier.name)}
          </bdi>
        </Link>
      ) : (
        <span className="post-name">nobody named</span>
      )}
      {soldier && <span className="out-of-sight">{STATE_WORDS[soldier.status]}</span>}
      {soldier && !filled && <span className="post-why">{soldier.whyNot.map(({ reason }) => reason).join(', ')}</span>}
    </div>
  )
}
