import { useMutation } from '@tanstack/react-query'
import { useEffect, useId, useRef } from 'react'
import { createPortal } from 'react-dom'
import { Button } from './button.tsx'
import { Failure } from './failure.tsx'
import './confirm-dialog.css'

interface ConfirmDialogProps {
  /** A question: "Call off this test day?" */
  title: string
  /** What the button does, in its own words: "Call it off". */
  confirm: string
  /** Does it; what it throws is shown and the dialog stays open. */
  onConfirm: () => Promise<unknown>
  /** Called when the dialog is left, done or not. */
  onClose: () => void
  /** What the button that leaves it says; null: there is nothing to leave, only to read. */
  leave?: string | null
  /** What will happen, in figures and names, and fields it needs. */
  children: React.ReactNode
}

/** Asks before something that cannot be undone, and says what will happen. Shown while it is rendered; Escape leaves it. */
export function ConfirmDialog({
  title,
  confirm,
  leave = 'Leave it as it is',
  onConfirm,
  onClose,
  children,
}: ConfirmDialogProps) {
  const dialog = useRef<HTMLDialogElement>(null)
  const id = useId()
  useEffect(() => dialog.current?.showModal(), [])
  const act = useMutation({ mutationFn: onConfirm, onSuccess: onClose })
  // A form within a form would be none; so the dialog stands at the end of the page, and its submit is its own.
  return createPortal(
    <dialog ref={dialog} className="confirm" aria-labelledby={id} onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          event.stopPropagation()
          act.mutate()
        }}
      >
        <h2 id={id}>{title}</h2>
        <div className="confirm-body">{children}</div>
        {act.error && <Failure error={act.error} />}
        <div className="confirm-buttons">
          <Button kind="main" type="submit" disabled={act.isPending}>
            {confirm}
          </Button>
          {leave !== null && <Button onClick={() => dialog.current?.close()}>{leave}</Button>}
        </div>
      </form>
    </dialog>,
    document.body,
  )
}
