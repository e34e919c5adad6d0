import { useQuery } from '@tanstack/react-query'
import { useLocation } from 'wouter'
import { sheetQuery } from '../../../api/sheets/sheets.ts'
import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { newId } from '../../../domain/new-id.ts'
import { addressTo, gradePaths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { CandidateForm } from './candidate-form.tsx'
import { isTaken, mendCandidate, reopen, sendAsDuplicate, sendAsSecond, tryAgain } from './reopen.ts'

interface RefusedProps {
  kept: KeptSheet
  onSent: () => void
}

/** Why the server has not taken a sheet, and the ways to mend it. It stays on this device until it is taken. */
export function Refused({ kept, onSent }: RefusedProps) {
  const { candidate } = kept.sheet.head
  const isUnknown = candidate.id === null
  return (
    <Notice kind="bad">
      <div className="refused">
        <p>The server did not take this sheet: {kept.message} It is safe on this phone until it is taken.</p>
        {isUnknown && (
          <CandidateForm
            rosterNumber={candidate.rosterNumber}
            familyName={candidate.familyName}
            submit="Send with these"
            onSubmit={(mended) => void mendCandidate(kept, mended).then(onSent)}
          />
        )}
        {isTaken(kept) ? <Taken kept={kept} onSent={onSent} /> : <Mend kept={kept} onSent={onSent} />}
      </div>
    </Notice>
  )
}

function Mend({ kept, onSent }: RefusedProps) {
  return (
    <>
      <Button onClick={() => void reopen(kept, newId()).then(() => location.reload())}>
        Open it again to correct it
      </Button>
      <Button onClick={() => void tryAgain(kept).then(onSent)}>Send it again as it is</Button>
    </>
  )
}

/** Another sheet has the place of this one: who has it, and what this one can be instead. */
function Taken({ kept, onSent }: RefusedProps) {
  const [, go] = useLocation()
  const there = useQuery({ ...sheetQuery(kept.id), retry: false }).data
  const graderId = kept.sheet.head.graderId
  const isOwn = there?.graderId === graderId
  const follow = (id: string) => {
    onSent()
    go(addressTo(gradePaths.sheet, { id }), { replace: true })
  }
  return (
    <>
      {there && (
        <p>
          That sheet was graded by {isOwn ? 'you' : <bdi>{there.people[there.graderId] ?? 'another grader'}</bdi>}, came
          to {there.result.outcome ?? 'no outcome'} and has {there.result.go} measures GO.
        </p>
      )}
      {!isOwn && (
        <Button onClick={() => void sendAsSecond(kept, newId()).then(follow)}>
          Two of us graded it: send this as the second grader’s sheet
        </Button>
      )}
      <Button onClick={() => void sendAsDuplicate(kept, newId()).then(follow)}>
        It is the same test twice: send it to the office as a duplicate, no attempt
      </Button>
      <Button
        onClick={() => void reopen(kept, newId()).then((id) => location.assign(addressTo(gradePaths.sheet, { id })))}
      >
        It is another test: open it under a number of its own
      </Button>
    </>
  )
}
