import { Button } from '../../../ui/button.tsx'
import { counted } from '../../../words/format-number.ts'
import type { DraftKeeper, DraftView } from './draft-keeper.ts'

/** Where the draft is safe, and one step back or forward. */
export function KeptLine({ view, keeper, onFault }: { view: DraftView; keeper: DraftKeeper; onFault: () => void }) {
  const { history, problems, kept, error } = view
  return (
    <>
      <Button aria-label="Undo the last change" disabled={history.past.length === 0} onClick={keeper.undo}>
        Undo
      </Button>
      <Button aria-label="Redo the change" disabled={history.future.length === 0} onClick={keeper.redo}>
        Redo
      </Button>
      <p className="draft-kept" role="status">
        {kept === 'saved' && 'Saved'}
        {kept === 'saving' && 'Saving …'}
        {kept === 'clash' && 'Not saved: somebody else changed this draft.'}
        {kept === 'unsent' && `Kept on this device. ${error?.message ?? ''}`}
        {kept === 'faulty' &&
          `Kept on this device; ${counted(problems.length, 'thing')} to put right before it is saved.`}
      </p>
      {kept === 'faulty' && (
        <Button kind="quiet" onClick={onFault}>
          Show the first
        </Button>
      )}
    </>
  )
}
