import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { setSession } from '../api/accounts/session.ts'
import { leave as signOut } from '../api/sign-on/sign-on.ts'
import { countUnsent } from '../features/sheets/enter/entry-keys.ts'
import { Button } from '../ui/button.tsx'
import { Failure } from '../ui/failure.tsx'
import { counted, listed, plural } from '../words/format-number.ts'

/** The way out. With sheets on this device that the server does not have it says so, and asks once more. */
export function SignOut({ accountId }: { accountId: string }) {
  const client = useQueryClient()
  const [unsent, setUnsent] = useState(() => ({ sheets: countUnsent(accountId), practices: 0 }))
  const [isAsked, setAsked] = useState(false)
  useEffect(() => {
    let isGone = false
    const count = async () => {
      const { countUnsentSheets } = await import('../device/store/sheet-store.ts')
      const { countUnsentPractices } = await import('../device/store/practice-store.ts')
      const [graded, practised] = await Promise.all([countUnsentSheets(accountId), countUnsentPractices(accountId)])
      if (!isGone) setUnsent({ sheets: countUnsent(accountId) + graded, practices: practised })
    }
    void count()
    return () => {
      isGone = true
    }
  }, [accountId])
  const leave = useMutation({
    mutationFn: signOut,
    onSuccess: async ({ address }) => {
      const { clearDeviceAccount } = await import('../device/store/device-account.ts')
      const { dropPages } = await import('../device/store/page-store.ts')
      const { leavePush } = await import('../device/push.ts')
      const { dropStudiesOfOthers } = await import('../device/store/study-store.ts')
      await Promise.allSettled([
        clearDeviceAccount(),
        dropPages(accountId),
        dropStudiesOfOthers(accountId, new Set()),
        leavePush(),
      ])
      // A provider that signed one in ends its own session, and sends one back.
      if (address !== null) location.assign(address)
      else setSession(client, null)
    },
  })
  const all = unsent.sheets + unsent.practices
  const what = [
    unsent.sheets > 0 ? counted(unsent.sheets, 'sheet') : '',
    unsent.practices > 0 ? counted(unsent.practices, 'practice') : '',
  ].filter(Boolean)
  const press = () => (all > 0 && !isAsked ? setAsked(true) : leave.mutate())
  return (
    <>
      {all > 0 && (
        <p className="small" role={isAsked ? 'alert' : undefined}>
          {listed(what)} on this device {plural(all, 'is', 'are')} not sent yet, and {plural(all, 'stays', 'stay')} here
          until you sign in again.
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
