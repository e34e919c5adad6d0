import { Link } from 'wouter'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import type { useQueue } from '../store/use-kept.ts'

/** Sends at once what this device keeps; who is signed out signs in first and comes back here. */
export function SendNow({ queue: { state, goOn } }: { queue: ReturnType<typeof useQueue> }) {
  if (state.phase === 'signed out')
    return (
      <Link className="button" href={addressTo(paths.signIn, { from: location.pathname })}>
        Sign in
      </Link>
    )
  return (
    <Button onClick={() => void goOn()} disabled={state.phase === 'sending'}>
      Send now
    </Button>
  )
}
