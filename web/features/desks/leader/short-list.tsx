import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { sayWhyNot, type WhyNotWords } from '../../../domain/ceremonies/say-why-not.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Disclosure } from '../../../ui/disclosure.tsx'
import { counted } from '../../../words/say-number.ts'

interface ShortListProps extends WhyNotWords {
  ceremonyId: string
  posts: CeremonyDetail['formation']
  certificationTitle: (code: string) => string
  /** Stands open from the start. */
  open: boolean
}

/** The short posts of a ceremony behind one line: each with the reason, and the way to name somebody. */
export function ShortList({ ceremonyId, posts, certificationTitle, open, ...words }: ShortListProps) {
  if (posts.length === 0) return <p className="muted">No post is short.</p>
  return (
    <Disclosure title="Short" note={counted(posts.length, 'post')} open={open}>
      <ul className="desk-short">
        {posts.map((post) => (
          <li key={post.id}>
            <Link href={addressTo(paths.ceremony, { id: ceremonyId, post: post.id })}>
              <b>{post.title}</b>
            </Link>{' '}
            <span className="muted">{certificationTitle(post.certification)}</span>
            <br />
            {post.soldier
              ? `${post.soldier.grade} ${post.soldier.name}: ${post.soldier.whyNot.map((why) => sayWhyNot(why, words)).join('; ')}`
              : post.otherUnit
                ? 'A soldier of another unit is named who cannot stand.'
                : 'Nobody is named.'}
          </li>
        ))}
      </ul>
    </Disclosure>
  )
}
