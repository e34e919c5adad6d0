import { useId, useState } from 'react'
import type { InvitationLink } from '#contract/accounts/accounts.ts'
import { Button } from '../../ui/button.tsx'
import { Notice } from '../../ui/notice.tsx'
import { formatMoment } from '../../words/format-moment.ts'

interface LinkNoticeProps {
  name: string
  link: InvitationLink
  today: string
  onDone: () => void
}

/** The link just made, this once, to be handed on. */
export function LinkNotice({ name, link, today, onDone }: LinkNoticeProps) {
  const id = useId()
  const [copied, setCopied] = useState<'yes' | 'no' | null>(null)
  const address = `${location.origin}/welcome#${link.token}`
  const copy = () =>
    // Without TLS a browser gives no access to the clipboard; then it is copied by hand.
    (navigator.clipboard?.writeText(address) ?? Promise.reject(new Error('no clipboard'))).then(
      () => setCopied('yes'),
      () => setCopied('no'),
    )
  return (
    <Notice kind="good">
      <p>
        Give this link to <bdi>{name}</bdi> yourself; whoever has it chooses the password. It works once, until{' '}
        {formatMoment(link.expiresAt, today)}, and is shown only now.
      </p>
      <label htmlFor={id} className="out-of-sight">
        Link for {name}
      </label>
      <input
        id={id}
        className="accounts-link"
        readOnly
        value={address}
        onFocus={(event) => event.currentTarget.select()}
      />
      <Button onClick={copy}>{copied === 'yes' ? 'Copied' : 'Copy the link'}</Button>
      <Button onClick={onDone}>Done</Button>
      {copied === 'no' && <p role="alert">This browser does not let us copy; select the link and copy it by hand.</p>}
    </Notice>
  )
}
