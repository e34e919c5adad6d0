import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { setSession, signOut } from '../api/accounts/session.ts'
import { countUnsent } from '../features/sheets/enter/entry-keys.ts'
import { Button } from '../ui/button.tsx'
import { Failure } from '../ui/failure.tsx'
import { counted, plural } from '../words/format-number.ts'

/** The way out. With sheets on this device that the server does not have it says so, and asks once more. */
export function SignOut({ accountId }: { accountId: string }) {
  const client = useQueryClient()
  const [unsent, setUnsent] = useState(() => countUnsent(accountId))
  const [isAsked, setAsked] = useState(false)
  useEffect(() => {
    let isGone = false
    const count = async () => {
      const { countUnsentSheets } = await import('../device/store/sheet-store.ts')
      const graded = await countUnsentSheets(accountId)
      if (!isGone) setUnsent(countUnsent(accountId) + graded)
    }
    void count()
    return () => {
      isGone = true
    }
  }, [accountId])
  const leave = useMutation({
    mutationFn: signOut,
    onSuccess: async () => {
      const { forgetAccount } = await import('../device/store/device-account.ts')
      const { dropPages } = await import('../device/store/page-store.ts')
      const { dropStudiesOfOthers } = await import('../device/store/study-store.ts')
      await Promise.allSettled([forgetAccount(), dropPages(accountId), dropStudiesOfOthers(accountId, new Set())])
      setSession(client, null)
    },
  })
  const press = () => (unsent > 0 && !isAsked ? setAsked(true) : leave.mutate())
  return (
    <>
      {unsent > 0 && (
        <p className="small" role={isAsked ? 'alert' : undefined}>
          {counted(unsent, 'sheet')} on this device {plural(unsent, 'is', 'are')} not sent yet, and{' '}
          {plural(unsent, 'stays', 'stay')} here until you sign in again.
          {isAsked && ' Nobody else on this device sees or sends them. Without a network you cannot sign in again.'}
        </p>
      )}
      <Button onClick={press} disabled={leave.isPending}>
        {isAsked ? 'Sign out all the same' : 'Sign out'}
      </Button>
      {leave.error && <Failure error={leave.error} />}
    </>
  )
}
