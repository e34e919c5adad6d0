import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { can } from '#access/permissions.ts'
import type { Session } from '#contract/accounts/session.ts'
import type { PushState } from '#contract/notices/push.ts'
import { changePush, pushQuery } from '../../../api/notices/push.ts'
import { canTakePush, endPush, takePush } from '../../../device/push.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { formatMoment } from '../../../words/format-moment.ts'
import { counted } from '../../../words/format-number.ts'

interface PushPartProps {
  account: Pick<Session, 'accountId' | 'roles'>
  today: string
}

/** Notifications of bookings, results and call-offs on this device: by everybody for themselves, once an administrator lets them be sent. */
export function PushPart({ account, today }: PushPartProps) {
  const state = useQuery(pushQuery)
  if (!state.data) return state.error ? <Failure error={state.error} onRetry={state.refetch} /> : null
  const mayAllow = can(account, 'manage-accounts')
  return (
    <div className="reasoned-form">
      <Own state={state.data} accountId={account.accountId} mayAllow={mayAllow} today={today} />
      {mayAllow && state.data.publicKey !== null && <Allow state={state.data} />}
    </div>
  )
}

const SAYS =
  'They say that a booking, a result or a test day changed, and not what: no name and no outcome leaves the server.'

/** What is so on this device. */
const formatHere = ({ isOn, here, elsewhere }: PushState, mayAllow: boolean, today: string): string => {
  if (!isOn) {
    return mayAllow
      ? 'Notifications are off in this unit.'
      : 'Notifications are off in this unit. An administrator can turn them on.'
  }
  const others = elsewhere > 0 ? ` ${counted(elsewhere, 'other device takes', 'other devices take')} them.` : ''
  return here === null
    ? `This device takes none.${others}`
    : `This device takes them since ${formatMoment(here, today)}, until you sign out on it.${others}`
}

function Own({
  state,
  accountId,
  mayAllow,
  today,
}: {
  state: PushState
  accountId: string
  mayAllow: boolean
  today: string
}) {
  const client = useQueryClient()
  const renew = () => client.invalidateQueries({ queryKey: pushQuery.queryKey })
  const take = useMutation({ mutationFn: (key: string) => takePush(accountId, key), onSettled: renew })
  const end = useMutation({ mutationFn: endPush, onSettled: renew })
  const { publicKey } = state
  const ability = canTakePush()
  return (
    <>
      <p>
        {formatHere(state, mayAllow, today)} {state.isOn && SAYS}
      </p>
      {state.isOn && state.here === null && ability === 'no' && (
        <p className="muted">
          This browser cannot take them here. They need https; on an iPhone or iPad put Reviewstand on the home screen
          first.
        </p>
      )}
      {state.isOn && state.here === null && ability === 'refused' && (
        <p className="muted">The browser was told not to show any. Allow them in its settings for this site.</p>
      )}
      <div className="reasoned-form-buttons">
        {state.isOn && state.here === null && ability === 'yes' && publicKey !== null && (
          <Button onClick={() => take.mutate(publicKey)} disabled={take.isPending}>
            Notify me on this device
          </Button>
        )}
        {state.here !== null && (
          <Button onClick={() => end.mutate()} disabled={end.isPending}>
            No more on this device
          </Button>
        )}
      </div>
      {take.error && <Failure error={take.error} />}
      {end.error && <Failure error={end.error} />}
    </>
  )
}

/** An administrator lets notifications be sent, or not. */
function Allow({ state }: { state: PushState }) {
  const client = useQueryClient()
  const [contact, setContact] = useState(state.contact ?? 'mailto:')
  const change = useMutation({
    mutationFn: (isOn: boolean) => changePush({ isOn, contact }),
    onSuccess: (now) => client.setQueryData(pushQuery.queryKey, now),
  })
  return (
    <>
      <TextField
        label="Whom push services write to about this server"
        hint="An address like mailto:office@unit.example. The push services of the browsers’ makers see it, and that there is a message."
        value={contact}
        maxLength={200}
        onChange={(event) => setContact(event.target.value)}
      />
      <div className="reasoned-form-buttons">
        <Button onClick={() => change.mutate(!state.isOn)} disabled={change.isPending}>
          {state.isOn ? 'Turn notifications off for everybody' : 'Let notifications be sent'}
        </Button>
      </div>
      {change.error && <Failure error={change.error} />}
    </>
  )
}
