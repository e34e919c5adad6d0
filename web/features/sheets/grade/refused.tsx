import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { newId } from '../../../domain/new-id.ts'
import { addressTo, gradePaths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { CandidateForm } from './candidate-form.tsx'
import { mendCandidate, reopen, tryAgain } from './reopen.ts'

/** Why the server has not taken a sheet, and the ways to mend it. It stays on this device until it is taken. */
export function Refused({ kept, onSent }: { kept: KeptSheet; onSent: () => void }) {
  const { candidate } = kept.sheet.head
  const isUnknown = candidate.id === null
  return (
    <Notice kind="bad">
      <p>The server did not take this sheet: {kept.message} It is safe on this phone until it is taken.</p>
      {isUnknown && (
        <CandidateForm
          rosterNumber={candidate.rosterNumber}
          familyName={candidate.familyName}
          submit="Send with these"
          onSubmit={(mended) => void mendCandidate(kept, mended).then(onSent)}
        />
      )}
      <Button
        onClick={() =>
          void reopen(kept, newId()).then((id) =>
            // The window holds the sheet as it was closed; opening it anew reads it as it stands.
            id === kept.id ? location.reload() : location.assign(addressTo(gradePaths.sheet, { id })),
          )
        }
      >
        Open it again to correct it
      </Button>
      <Button onClick={() => void tryAgain(kept).then(onSent)}>Send it again as it is</Button>
    </Notice>
  )
}
