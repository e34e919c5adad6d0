import { useState } from 'react'
import { useLocation } from 'wouter'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { counted } from '../../../words/format-number.ts'
import { type Draft, hasContent } from './draft.ts'

/** Throws away what is typed, once somebody has said yes; what is stored already stays as it is. */
export function DiscardDraft({ draft, onDiscard }: { draft: Draft; onDiscard: () => void }) {
  const [asking, setAsking] = useState(false)
  const [, go] = useLocation()
  if (!draft.amends && !hasContent(draft)) return null
  const marks =
    Object.values(draft.majors).filter(({ mark }) => mark !== null).length +
    Object.values(draft.minors).reduce((sum, { trials }) => sum + trials.filter((mark) => mark !== null).length, 0)
  return (
    <>
      <Button onClick={() => setAsking(true)}>{draft.amends ? 'Drop the change' : 'Discard this sheet'}</Button>
      {asking && (
        <ConfirmDialog
          title={draft.amends ? 'Drop what you changed?' : 'Discard this sheet?'}
          confirm={draft.amends ? 'Drop it' : 'Discard it'}
          onConfirm={async () => {
            onDiscard()
            if (draft.amends) go(addressTo(paths.sheet, { id: draft.id }))
          }}
          onClose={() => setAsking(false)}
        >
          {draft.amends ? (
            <p>The stored sheet stays as it is.</p>
          ) : (
            <p>
              <bdi>{draft.candidate?.text ?? 'A sheet without a candidate'}</bdi>, {counted(marks, 'mark')}: it has not
              been stored, and goes from this device for good.
            </p>
          )}
        </ConfirmDialog>
      )}
    </>
  )
}
