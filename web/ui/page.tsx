import { useEffect, useRef } from 'react'
import { Link } from 'wouter'
import { Failure, isOutOfReach } from './failure.tsx'
import './page.css'

interface PageProps {
  /** What the browser calls the page. */
  title: string
  /** The sentence that answers what the reader came to ask; without it the page is still loading. */
  answer?: React.ReactNode
  /** One sentence of why, or of what to do. */
  why?: React.ReactNode
  controls?: React.ReactNode
  /** What went wrong with loading, said in place of the answer. */
  error?: Error | null
  onRetry?: () => void
  /** Newer figures are on their way; those shown are the ones before. */
  busy?: boolean
  /** The page puts the focus itself, on its first field. */
  focusElsewhere?: boolean
  /** The work on the page needs the room: a smaller answer. */
  compact?: boolean
  children?: React.ReactNode
}

let arrivals = 0

/** A screen in our order: the answer in large type, one sentence of why, the controls, then picture and list. */
export function Page({
  title,
  answer,
  why,
  controls,
  error,
  onRetry,
  busy,
  focusElsewhere,
  compact,
  children,
}: PageProps) {
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    document.title = `${title} · Reviewstand`
  }, [title])
  useEffect(() => {
    arrivals += 1
    if (arrivals > 1 && !focusElsewhere) heading.current?.focus({ preventScroll: true })
  }, [focusElsewhere])

  const isElsewhere = error ? isOutOfReach(error) : false
  const loading = answer === undefined && !error
  return (
    <main id="main" className={compact ? 'page page-compact' : 'page'} aria-busy={loading || busy || undefined}>
      <div className="page-head">
        <h1 ref={heading} tabIndex={-1} className="page-answer">
          {error ? formatError(title, error) : (answer ?? <Waiting title={title} />)}
        </h1>
        {!error && (why ?? loading) && <p className="page-why">{why}</p>}
        {isElsewhere && (
          <p className="page-why">
            Whoever keeps it can open it. Go back, or to <Link href="/">your desk</Link>.
          </p>
        )}
      </div>
      {controls && !isElsewhere && <div className="page-controls no-print">{controls}</div>}
      {error ? !isElsewhere && <Failure error={error} onRetry={onRetry} /> : children}
    </main>
  )
}

/** An answer that is not there and one that is not for this account read alike, as they do on the wire. */
const formatError = (title: string, error: Error): string =>
  isOutOfReach(error) ? `${title}: it is not there, or it is not yours to see.` : `${title}: this could not be loaded.`

function Waiting({ title }: { title: string }) {
  return (
    <>
      <span className="out-of-sight">{title} is loading</span>
      <span className="page-waiting" aria-hidden="true" />
    </>
  )
}
