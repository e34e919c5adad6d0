import { lazy, Suspense, useEffect, useState } from 'react'
import { askIdentityBy } from '../api/identity.ts'

const IdentityDialog = lazy(() => import('../features/accounts/factors/identity-dialog.tsx'))

/** Shows the dialog that asks who one is whenever the server wants to know it before it does something. */
export function Identity({ name }: { name: string }) {
  const [end, setEnd] = useState<((isConfirmed: boolean) => void) | null>(null)
  useEffect(() => {
    askIdentityBy(
      () =>
        new Promise((resolve) => {
          setEnd(() => (isConfirmed: boolean) => {
            setEnd(null)
            resolve(isConfirmed)
          })
        }),
    )
    return () => askIdentityBy(null)
  }, [])
  return end && <Suspense fallback={null}>{<IdentityDialog name={name} onEnd={end} />}</Suspense>
}
