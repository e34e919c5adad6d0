import { Button } from './button.tsx'
import './notice.css'

/** Whether it was refused for good: not there, or not for this account. Trying again changes nothing. */
export const isOutOfReach = (error: Error): boolean =>
  'status' in error && (error.status === 403 || error.status === 404)

/** What went wrong, in words that say what to do, with a way to try again where that may help. */
export function Failure({ error, onRetry }: { error: Error; onRetry?: () => void }) {
  return (
    <div className="notice notice-bad" role="alert">
      <p>{error.message}</p>
      {onRetry && !isOutOfReach(error) && <Button onClick={onRetry}>Try again</Button>}
    </div>
  )
}
