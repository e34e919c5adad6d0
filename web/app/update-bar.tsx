import { useState, useSyncExternalStore } from 'react'
import { useLocation } from 'wouter'
import { Button } from '../ui/button.tsx'
import { isUpdateWaiting, onUpdate, takeUpdate } from './updates.ts'

/** Offers a newer version of the app, everywhere but on a grade sheet. */
export function UpdateBar() {
  const isWaiting = useSyncExternalStore(onUpdate, isUpdateWaiting)
  const [isHeldUp, setHeldUp] = useState(false)
  const [path] = useLocation()
  if (!isWaiting || path.startsWith('/grade/')) return null
  return (
    <div className="update-bar no-print" role="status">
      <span>
        {isHeldUp
          ? 'A sheet is being graded in another window; load the newer version when it is closed.'
          : 'A newer version of Reviewstand is here.'}
      </span>
      <Button onClick={async () => setHeldUp(!(await takeUpdate()))}>Load it now</Button>
    </div>
  )
}
