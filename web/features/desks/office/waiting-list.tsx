import { Link } from 'wouter'
import { figure, listed, plural } from '../../../words/format-number.ts'
import './waiting-list.css'

/** Something that waits for the office: one of it, several, what to do about it, where; no count while it is not known. */
export interface Waiting {
  readonly one: string
  readonly many: string
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
          .map(({ one, many, todo, count, to }) => (
            <li key={many}>
              <Link href={to}>
                <b>{count === undefined ? '…' : figure(count)}</b>
                <span className="waiting-what">{plural(count ?? 0, one, many)}</span>
                <span className="waiting-do muted">{todo}</span>
              </Link>
            </li>
          ))}
      </ul>
      {none.length > 0 && (
        <p className="waiting-none muted">
          No{' '}
          {listed(
            none.map(({ many }) => many),
            'or',
          )}
          .
        </p>
      )}
    </>
  )
}
