import { Link } from 'wouter'
import type { CeremonySummary } from '#contract/ceremonies/ceremonies.ts'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { formatDay } from '../../words/format-day.ts'
import { FilledBy } from '../first-steps/filled-by.tsx'
import { PostBar, PostsFilled } from './post-bar.tsx'
import './ceremony-list.css'

/** The ceremonies to come, each as its posts: solid filled, hollow not. */
export function CeremonyList({ ceremonies, today }: { ceremonies: readonly CeremonySummary[]; today: string }) {
  if (ceremonies.length === 0)
    return (
      <Empty>
        No ceremony is planned.
        <FilledBy steps={['ceremonies']} />
      </Empty>
    )
  return (
    <ul className="ceremony-list">
      {ceremonies.map(({ id, title, day, posts, filled }) => (
        <li key={id}>
          <Link href={addressTo(paths.ceremony, { id })}>
            <b>
              <bdi>{title}</bdi>
            </b>
          </Link>
          <span>{formatDay(day, today)}</span>
          <PostBar posts={posts} filled={filled} />
          <PostsFilled posts={posts} filled={filled} />
        </li>
      ))}
    </ul>
  )
}
