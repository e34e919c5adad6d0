import { Link } from 'wouter'
import type { CeremonySummary } from '#contract/ceremonies.ts'
import { Empty } from '../ui/empty.tsx'
import { ofAll } from '../words/of-all.ts'
import { sayDay } from '../words/say-day.ts'
import './ceremony-list.css'

/** The ceremonies to come, each as its posts: solid filled, hollow not. */
export function CeremonyList({ ceremonies, today }: { ceremonies: readonly CeremonySummary[]; today: string }) {
  if (ceremonies.length === 0) return <Empty>No ceremony is planned.</Empty>
  return (
    <ul className="ceremony-list">
      {ceremonies.map(({ id, title, day, unitId, posts, filled }) => (
        <li key={id}>
          <Link href={`/stand?${new URLSearchParams({ ceremony: id, asOf: day, unitId })}`}>
            <b>
              <bdi>{title}</bdi>
            </b>
          </Link>
          <span>{sayDay(day, today)}</span>
          <span className="ceremony-posts" aria-hidden="true">
            {Array.from({ length: posts }, (_, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: posts are drawn alike
              <i key={index} className={index < filled ? 'ceremony-filled' : ''} />
            ))}
          </span>
          <span className={filled < posts ? 'ceremony-short' : 'muted'}>{ofAll(filled, posts)} filled</span>
        </li>
      ))}
    </ul>
  )
}
