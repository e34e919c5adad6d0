import { useMutation } from '@tanstack/react-query'
import { Button } from './button.tsx'
import { Failure } from './failure.tsx'
import './undo-notice.css'

interface UndoNoticeProps {
  /** What was done: "Moved to slot 09:40." */
  text: string
  onUndo: () => Promise<unknown>
  /** Called when the notice is put away, undone or not. */
  onClose: () => void
}

/** Says what was just done, with the way back; it stays until it is put away, for nobody reads against a clock. */
export function UndoNotice({ text, onUndo, onClose }: UndoNoticeProps) {
  const undo = useMutation({ mutationFn: onUndo, onSuccess: onClose })
  return (
    <div className="undo no-print" role="status">
      <p>{text}</p>
      <Button onClick={() => undo.mutate()} disabled={undo.isPending}>
        Undo
      </Button>
      <Button kind="quiet" onClick={onClose}>
        Put away
      </Button>
      {undo.error && <Failure error={undo.error} />}
    </div>
  )
}
