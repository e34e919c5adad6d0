import { counted } from '../../../words/format-number.ts'

/** What was done about bookings on this device and not sent yet, in words; '' when all is sent. */
export const formatPendingActions = (pendingActions: readonly { readonly state: 'waiting' | 'refused' }[]): string => {
  const waiting = pendingActions.filter(({ state }) => state === 'waiting').length
  const refused = pendingActions.length - waiting
  return [
    waiting > 0
      ? `${counted(waiting, 'check-in or walk-in', 'check-ins and walk-ins')} on this phone, not yet sent`
      : '',
    refused > 0 ? `${counted(refused, 'one', 'ones')} not taken by the server` : '',
  ]
    .filter(Boolean)
    .join('; ')
}
