import { lazy, Suspense } from 'react'
import type { Session } from '#contract/session.ts'
import { Mark } from '../ui/mark.tsx'
import { Page } from '../ui/page.tsx'
import './shell.css'

const GraderDesk = lazy(() => import('../features/grader/desk.tsx'))

/** Without an answer from the server: the desk of who signed in on this device last, from which they grade. */
export function Offline({ account, onRetry }: { account: Session; onRetry: () => void }) {
  return (
    <>
      <header className="mast">
        <span className="mast-name">
          <Mark />
          Reviewstand
        </span>
        <span className="mast-unit">no answer from the server; grading works</span>
        <button type="button" className="button button-plain mast-button" onClick={onRetry}>
          Try again
        </button>
        <bdi>{account.name}</bdi>
      </header>
      <Suspense fallback={<Page title="Grader’s desk" />}>
        <GraderDesk />
      </Suspense>
    </>
  )
}
