import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { OwnMail } from '#contract/mail/mail.ts'
import { ownMailQuery, removeMailAddress } from '../../../api/mail/own-mail.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { MailAddressForm } from './mail-address-form.tsx'
import { MailChoices } from './mail-choices.tsx'
import { MailCodeForm } from './mail-code-form.tsx'

/** One's mail: where it goes, and what comes when. */
export function MailPart() {
  const { data: mail, error, refetch } = useQuery(ownMailQuery)
  if (!mail) return error ? <Failure error={error} onRetry={refetch} /> : null
  if (!mail.on && mail.state === 'none') {
    return <p className="muted">This server sends no mail. An administrator can set it up.</p>
  }
  return <Mail mail={mail} />
}

function Mail({ mail }: { mail: OwnMail }) {
  const [asks, setAsks] = useState<'address' | 'end' | null>(null)
  const client = useQueryClient()
  const end = useMutation({
    mutationFn: removeMailAddress,
    onSuccess: () => client.invalidateQueries({ queryKey: ownMailQuery.queryKey }),
  })
  const isNone = mail.state === 'none'
  return (
    <div className="reasoned-form">
      <p>{formatWhere(mail)}</p>
      {mail.on && (mail.state === 'unconfirmed' || mail.state === 'refused') && <MailCodeForm mail={mail} />}
      {asks === 'address' && <MailAddressForm onDone={() => setAsks(null)} onLeave={() => setAsks(null)} />}
      {asks !== 'address' && (
        <div className="reasoned-form-buttons">
          {mail.on && (
            <Button onClick={() => setAsks('address')}>
              {isNone ? 'Give a mail address' : 'Give another address'}
            </Button>
          )}
          {!isNone && <Button onClick={() => setAsks('end')}>Stop all mail</Button>}
        </div>
      )}
      {mail.on && mail.state === 'confirmed' && mail.choices.length > 0 && <MailChoices mail={mail} />}
      {asks === 'end' && (
        <ConfirmDialog
          title="Stop all mail?"
          confirm="Remove the address"
          onConfirm={() => end.mutateAsync()}
          onClose={() => setAsks(null)}
        >
          <p>The address is removed. What concerns you still shows under Notices.</p>
        </ConfirmDialog>
      )}
    </div>
  )
}

function formatWhere({ on, state, address }: OwnMail) {
  const where = <b className="account-mail-address">{address}</b>
  if (!on) return <>Mail would go to {where}, but this server sends none.</>
  switch (state) {
    case 'none':
      return 'You get no mail. With an address of yours, bookings and what else you choose come there too; you and administrators see it, nobody else.'
    case 'unconfirmed':
      return <>A code is on its way to {where}. Nothing else goes there until you type it here.</>
    case 'refused':
      return <>The mail server of {where} refused mail for it. Nothing goes there until it is confirmed again.</>
    case 'confirmed':
      return <>Mail goes to {where}.</>
  }
}
