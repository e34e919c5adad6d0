import type { PendingAction } from '../../../device/store/pending-action.ts'
import { dropPendingAction, keepPendingAction } from '../../../device/store/pending-action-store.ts'
import { formatPendingActions } from '../../../domain/sheets/grading/format-pending-actions.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'

const nameOf = (pendingAction: PendingAction): string =>
  pendingAction.kind === 'mark'
    ? `${pendingAction.candidate}: ${pendingAction.mark.state}`
    : `${pendingAction.body.familyName}, ${pendingAction.body.rosterNumber}: came without a booking`

/** Check-ins and walk-ins that the server does not have yet, or did not take, and what can be done about them. */
export function PendingActionsPart({
  pendingActions,
  onSend,
}: {
  pendingActions: readonly PendingAction[]
  onSend: () => void
}) {
  if (pendingActions.length === 0) return null
  return (
    <Notice>
      <div>
        <p>
          {formatPendingActions(pendingActions)}. <Button onClick={onSend}>Send them now</Button>
        </p>
        <ul className="held-why">
          {pendingActions.map((pendingAction) => (
            <li key={pendingAction.id}>
              <bdi>{nameOf(pendingAction)}</bdi>
              {pendingAction.state === 'refused' && (
                <>
                  : {pendingAction.message}{' '}
                  <Button
                    kind="quiet"
                    onClick={() =>
                      void keepPendingAction({ ...pendingAction, state: 'waiting', message: '' }).then(onSend)
                    }
                  >
                    Send it again
                  </Button>{' '}
                  <Button kind="quiet" onClick={() => void dropPendingAction(pendingAction)}>
                    Discard it
                  </Button>
                </>
              )}
            </li>
          ))}
        </ul>
      </div>
    </Notice>
  )
}
