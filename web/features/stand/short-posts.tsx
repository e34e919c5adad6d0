import { useQueries } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies.ts'
import { readinessPageQuery } from '../../api/readiness.ts'
import { Empty } from '../../ui/empty.tsx'
import { counted, listed } from '../../words/say-number.ts'
import { couldFill, isShort, postsAlike } from './could-fill.ts'
import './short-posts.css'

const NAMES_SHOWN = 6

interface ShortPostsProps {
  ceremony: CeremonyDetail
  certificationTitle: (code: string) => string
}

/** For the short posts who could be named to them: certified that day, of a fitting grade, at no other post of the ceremony. */
export function ShortPosts({ ceremony, certificationTitle }: ShortPostsProps) {
  const short = ceremony.formation.filter(isShort)
  const certifications = [...new Set(short.map(({ certification }) => certification))]
  const readiness = useQueries({
    queries: certifications.map((certification) =>
      readinessPageQuery({ asOf: ceremony.day, unitId: ceremony.unitId, certification }),
    ),
  })
  const items = readiness.flatMap(({ data }) => data?.items ?? [])
  const partial = readiness.some(({ data }) => data?.next)
  if (short.length === 0) return <Empty>No post is short.</Empty>

  return (
    <>
      <ul className="short-posts">
        {postsAlike(short).map((posts) => {
          const [post] = posts
          if (!post) return null
          const people = couldFill(post, ceremony.formation, items)
          return (
            <li key={post.id}>
              <b>{listed(posts.map(({ title }) => title))}</b>
              <span className="muted">
                {[certificationTitle(post.certification), post.grades?.join(', ')].filter(Boolean).join(' · ')}
              </span>
              <span className="short-people">
                {people.slice(0, NAMES_SHOWN).map((item) => (
                  <Link key={item.soldierId} href={`/candidates/${item.soldierId}`}>
                    <bdi>
                      {item.grade} {item.name}
                    </bdi>
                  </Link>
                ))}
                {people.length > NAMES_SHOWN && <span>and {people.length - NAMES_SHOWN} more</span>}
                {people.length === 0 && (
                  <span>{readiness.some(({ isPending }) => isPending) ? 'Looking' : 'Nobody certified is free.'}</span>
                )}
              </span>
            </li>
          )
        })}
      </ul>
      <p className="muted small">
        Certified that day, of a fitting grade, at no post here yet
        {partial ? `; the first ${counted(items.length, 'soldier')} looked at` : ''}. Check the arm and other duties
        before naming anyone.
      </p>
    </>
  )
}
