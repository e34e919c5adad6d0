import { Link } from 'wouter'
import { figure, listed } from '../../words/say-number.ts'
import './waiting-list.css'

/** Something that waits for the office: what, what to do about it, where; no count while it is not known. */
export interface Waiting {
  readonly what: string
  readonly todo: string
  readonly count: number | undefined
  readonly to: string
}

/** What waits, in the order it is done in; of what does not, one sentence. */
export function WaitingList({ waiting }: { waiting: readonly Waiting[] }) {
  const none = waiting.filter(({ count }) => count === 0)
  return (
    <>
      <ul className="waiting">
        {waiting
          .filter(({ count }) => count !== 0)
          .map(({ what, todo, count, to }) => (
            <li key={what}>
              <Link href={to}>
                <b>{count === undefined ? '…' : figure(count)}</b>
                <span className="waiting-what">{what}</span>
                <span className="waiting-do muted">{todo}</span>
              </Link>
            </li>
          ))}
      </ul>
      {none.length > 0 && (
        <p className="waiting-none muted">
          None:{' '}
          {listed(
            none.map(({ what }) => what),
            'or',
          )}
          .
        </p>
      )}
    </>
  )
}
