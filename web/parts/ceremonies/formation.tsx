import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { shortWhyNot } from '../../domain/ceremonies/format-why-not.ts'
import { inRanks } from '../../domain/ceremonies/in-ranks.ts'
import { distinctNames } from '../../domain/soldiers/format-person.ts'
import { addressTo, paths } from '../../paths.ts'
import { STATE_WORDS, StateMark } from '../../ui/state-mark.tsx'
import './formation.css'

type Post = CeremonyDetail['formation'][number]

interface FormationProps {
  posts: readonly Post[]
  /** What one can do at a post, at the foot of its box. */
  action?: (post: Post) => React.ReactNode
}

/** The ceremony as it forms up, seen from the front: rank by rank, post by post, filled and not. */
export function Formation({ posts, action }: FormationProps) {
  const names = distinctNames(posts.flatMap(({ soldier }) => soldier ?? []))
  return (
    <ol className="formation" aria-label="Ranks, front rank first">
      {inRanks(posts).map((rank) => (
        <li key={rank[0]?.row} aria-label={`Rank ${rank[0]?.row}`}>
          <ol className="rank">
            {rank.map((post) => (
              <li key={post.id}>
                <PostBox post={post} name={names.get(post.soldier?.id ?? '')} action={action?.(post)} />
              </li>
            ))}
          </ol>
        </li>
      ))}
    </ol>
  )
}

interface PostBoxProps {
  post: Post
  /** Of who is named, told apart from the others of the formation. */
  name: string | undefined
  action: React.ReactNode
}

function PostBox({ post, name, action }: PostBoxProps) {
  const { soldier, filled, otherUnit } = post
  return (
    <div className={`post ${filled ? '' : 'post-short'}`}>
      <span className="post-mark">
        {soldier ? (
          <StateMark state={soldier.status} size={22} />
        ) : otherUnit && filled ? (
          <StateMark state="certified" size={22} />
        ) : (
          <span className="post-nobody" />
        )}
      </span>
      <span className="post-title">{post.title}</span>
      {soldier ? (
        <Link href={addressTo(paths.candidate, { id: soldier.id })} className="post-name">
          <bdi>{name}</bdi>
        </Link>
      ) : (
        <span className="post-name">{otherUnit ? 'of another unit' : 'nobody named'}</span>
      )}
      {soldier && <span className="out-of-sight">{STATE_WORDS[soldier.status]}</span>}
      {soldier && !filled && <span className="post-why">{soldier.whyNot.map(shortWhyNot).join(', ')}</span>}
      {otherUnit && !filled && <span className="post-why">cannot stand</span>}
      {action && <span className="post-action no-print">{action}</span>}
    </div>
  )
}
