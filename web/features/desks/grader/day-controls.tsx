import { Link } from 'wouter'
import { addressTo, gradePaths, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { formatMoment } from '../../../words/format-moment.ts'

interface DayControlsProps {
  /** The test under way, if any. */
  running: { id: string } | undefined
  lines: readonly (readonly [testDayId: string, place: string])[]
  fetchedAt: string
  on: string
  /** Whether this phone could work without a network; null where it never can. */
  isReady: boolean | null
  error: Error | null
  onAgain: () => void
}

/** The ways on from the day’s list, and how fresh it is. */
export function DayControls({ running, lines, fetchedAt, on, isReady, error, onAgain }: DayControlsProps) {
  const fetched = `List of ${formatMoment(fetchedAt, on)}`
  return (
    <>
      {running && (
        <Link className="button button-main desk-go-on" href={addressTo(gradePaths.sheet, { id: running.id })}>
          Go on with this test
        </Link>
      )}
      <Link className="button" href={gradePaths.start}>
        Somebody without a booking
      </Link>
      {lines.map(([id, place]) => (
        <Link key={id} className="button" href={addressTo(paths.line, { id })}>
          On the line{lines.length > 1 && `, ${place}`}
        </Link>
      ))}
      <span className="grader-fresh">
        {error ? `${fetched}; no newer one: there is no answer from the server.` : `${fetched}.`}{' '}
        {isReady !== null && (isReady ? 'Ready without a network.' : 'Not ready without a network yet.')}{' '}
        {error && (
          <Button kind="quiet" onClick={onAgain}>
            Ask again
          </Button>
        )}
      </span>
    </>
  )
}
