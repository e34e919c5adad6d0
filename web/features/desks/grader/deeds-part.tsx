import type { Deed } from '../../../device/store/deed.ts'
import { dropDeed, keepDeed } from '../../../device/store/deed-store.ts'
import { sayDeeds } from '../../../domain/sheets/grading/say-deeds.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'

const nameOf = (deed: Deed): string =>
  deed.kind === 'mark'
    ? `${deed.candidate}: ${deed.mark.state}`
    : `${deed.body.familyName}, ${deed.body.rosterNumber}: came without a booking`

/** Check-ins and walk-ins that the server does not have yet, or did not take, and what can be done about them. */
export function DeedsPart({ deeds, onSend }: { deeds: readonly Deed[]; onSend: () => void }) {
  if (deeds.length === 0) return null
  return (
    <Notice>
      <div>
        <p>
          {sayDeeds(deeds)}. <Button onClick={onSend}>Send them now</Button>
        </p>
        <ul className="held-why">
          {deeds.map((deed) => (
            <li key={deed.id}>
              <bdi>{nameOf(deed)}</bdi>
              {deed.state === 'refused' && (
                <>
                  : {deed.message}{' '}
                  <Button
                    kind="quiet"
                    onClick={() => void keepDeed({ ...deed, state: 'waiting', message: '' }).then(onSend)}
                  >
                    Send it again
                  </Button>{' '}
                  <Button kind="quiet" onClick={() => void dropDeed(deed)}>
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
