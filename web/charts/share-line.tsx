import './share-line.css'

interface ShareLineProps {
  part: number
  of: number
  /** Too little is known: the dot is hollow. */
  few?: boolean
  /** How sure: the interval of the share, from 0 to 1. */
  interval?: { low: number; high: number } | null
}

const percent = (share: number): string => `${100 * share}%`

/** A share as a dot on a line from none to all, with its interval as a bar. The figures belong beside it. */
export function ShareLine({ part, of, few = false, interval }: ShareLineProps) {
  return (
    <span className="share-line" aria-hidden="true">
      {of > 0 && (
        <>
          {interval && (
            <i
              className="share-interval"
              style={{ left: percent(interval.low), width: percent(interval.high - interval.low) }}
            />
          )}
          <i className={few ? 'share-dot share-few' : 'share-dot'} style={{ left: percent(part / of) }} />
        </>
      )}
    </span>
  )
}
