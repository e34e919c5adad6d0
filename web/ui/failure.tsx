import { Button } from './button.tsx'
import './notice.css'

/** What went wrong, in words that say what to do, with a way to try again. */
export function Failure({ error, onRetry }: { error: Error; onRetry?: () => void }) {
  return (
    <div className="notice notice-bad" role="alert">
      <p>{error.message}</p>
      {onRetry && <Button onClick={onRetry}>Try again</Button>}
    </div>
  )
}
