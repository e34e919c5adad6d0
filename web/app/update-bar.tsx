import { useState, useSyncExternalStore } from 'react'
import { useLocation } from 'wouter'
import { Button } from '../ui/button.tsx'
import { onUpdate, takeUpdate, updateState } from './updates.ts'

/** Offers a newer version of the app, everywhere but on a grade sheet. */
export function UpdateBar() {
  const state = useSyncExternalStore(onUpdate, updateState)
  const [isHeldUp, setHeldUp] = useState(false)
  const [path] = useLocation()
  if (state === 'none' || path.startsWith('/grade/')) return null
  if (state === 'loading') {
    return <Bar>The newer version is loading; a browser may take some minutes over it.</Bar>
  }
  return (
    <Bar>
      <span>
        {isHeldUp
          ? 'A sheet is being graded in another window; load the newer version when it is closed.'
          : 'A newer version of Reviewstand is here.'}
      </span>
      <Button onClick={async () => setHeldUp(!(await takeUpdate()))}>Load it now</Button>
    </Bar>
  )
}

const Bar = ({ children }: React.PropsWithChildren) => (
  <div className="update-bar no-print" role="status">
    {children}
  </div>
)
