import { useState } from 'react'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'
import type { SheetHead } from '../../../domain/sheets/grading/sheet-head.ts'
import { CandidateForm } from './candidate-form.tsx'
import { mendWalkIn, type PendingWalkIn } from './walk-in.ts'

interface WalkInPartProps {
  head: Pick<SheetHead, 'candidate' | 'sponsor'>
  walkIn: PendingWalkIn | null
  onTap: (event: SheetEvent) => Promise<void>
  /** Something waits to be sent. */
  onSend: () => void
}

/** Who came without a booking, to be put right while the test runs; the marks stay. */
export function WalkInPart({ head, walkIn, onTap, onSend }: WalkInPartProps) {
  const [isMended, setMended] = useState(false)
  return (
    <>
      <h3>Who is tested</h3>
      {walkIn?.state === 'refused' && <p role="alert">{walkIn.message}</p>}
      <CandidateForm
        rosterNumber={head.candidate.rosterNumber}
        familyName={head.candidate.familyName}
        submit="Put it right"
        onSubmit={async (mended) => {
          await onTap({ kind: 'candidate', candidate: { ...head.candidate, ...mended }, sponsor: head.sponsor })
          await mendWalkIn(walkIn, mended)
          setMended(true)
          onSend()
        }}
      />
      <p role="status">{isMended && 'Put right on this phone; compared with the roster when there is a network.'}</p>
    </>
  )
}
