import type { ListedBooking } from '#contract/test-days/day-list.ts'
import { keepPendingAction } from '../../../device/store/pending-action-store.ts'
import { CheckInDialog } from '../../../parts/test-days/check-in-dialog.tsx'

interface CheckInProps {
  accountId: string
  booking: ListedBooking
  onKept: () => void
  onClose: () => void
}

/** Marks who is here; it is kept on this phone until it can be sent. */
export function CheckIn({ accountId, booking, onKept, onClose }: CheckInProps) {
  const candidate = `${booking.candidate.grade} ${booking.candidate.familyName}`
  return (
    <CheckInDialog
      candidate={candidate}
      sponsor={booking.candidate.sponsor?.name ?? null}
      sponsorCertified={booking.sponsorCertified}
      state={booking.state}
      checkIn={booking.checkIn}
      onMark={async (mark) => {
        await keepPendingAction({
          accountId,
          id: booking.id,
          at: new Date().toISOString(),
          state: 'waiting',
          message: '',
          kind: 'mark',
          candidate,
          mark,
        })
        onKept()
      }}
      onClose={onClose}
    />
  )
}
