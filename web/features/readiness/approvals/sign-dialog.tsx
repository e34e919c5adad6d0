import { useState } from 'react'
import type { AwardDecisionBody, WaitingAward } from '#contract/readiness/commanders-words.ts'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Field } from '../../../ui/field.tsx'
import { formatForce } from './format-approvals.ts'

interface SignDialogProps {
  decision: AwardDecisionBody['decision']
  items: readonly WaitingAward[]
  today: string
  titleOf: (certification: string) => string
  onDecide: (body: Pick<AwardDecisionBody, 'reason'>) => Promise<void>
  onClose: () => void
}

/** Signs what was ticked, or refuses it with a reason; who signs is asked once more who they are. */
export function SignDialog({ decision, items, today, titleOf, onDecide, onClose }: SignDialogProps) {
  const [reason, setReason] = useState('')
  const refuses = decision === 'refuse'
  const decide = async () => {
    if (refuses && reason.trim() === '') throw new Error('Say why first; the soldier is entitled to know.')
    await onDecide({ reason: reason.trim() })
  }
  const count = items.length === 1 ? 'this certification' : `these ${items.length} certifications`
  return (
    <ConfirmDialog
      title={refuses ? `Refuse ${count}?` : `Sign ${count}?`}
      confirm={refuses ? 'Refuse' : 'Sign'}
      onConfirm={decide}
      onClose={onClose}
    >
      <ul>
        {items.map((item) => (
          <li key={`${item.sheetId} ${item.certification}`}>
            <bdi>
              {item.grade} {item.name}
            </bdi>
            , {titleOf(item.certification)}
            {refuses ? '' : `: ${formatForce(item, today)}`}
          </li>
        ))}
      </ul>
      <p className="muted">
        {refuses
          ? 'It is then as if nothing were earned: the tests stay passed as long as they count, and the next one passed earns it anew. You can take a refusal back.'
          : 'Signed, they may stand. You can take a signature back on the page of the soldier.'}
      </p>
      <Field label={refuses ? 'Reason' : 'Remark, if any'}>
        {(id) => <textarea id={id} rows={2} value={reason} onChange={(event) => setReason(event.target.value)} />}
      </Field>
    </ConfirmDialog>
  )
}
