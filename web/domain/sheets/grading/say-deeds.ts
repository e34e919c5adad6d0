import { counted } from '../../../words/say-number.ts'

/** What was done about bookings on this device and not sent yet, in words; '' when all is sent. */
export const sayDeeds = (deeds: readonly { readonly state: 'waiting' | 'refused' }[]): string => {
  const waiting = deeds.filter(({ state }) => state === 'waiting').length
  const refused = deeds.length - waiting
  return [
    waiting > 0
      ? `${counted(waiting, 'check-in or walk-in', 'check-ins and walk-ins')} on this phone, not yet sent`
      : '',
    refused > 0 ? `${counted(refused, 'one', 'ones')} not taken by the server` : '',
  ]
    .filter(Boolean)
    .join('; ')
}
