import { counted, plural } from '../../../words/format-number.ts'

/** The state of an account's sheets on this device in words, always in sight: "3 sheets on this phone, not yet sent". */
export const formatQueue = (
  sheets: readonly { readonly state: 'running' | 'waiting' | 'refused' | 'stored' }[],
  phase: 'idle' | 'sending' | 'held up' | 'signed out' | 'another account',
): string => {
  const count = (state: string) => sheets.filter((sheet) => sheet.state === state).length
  const waiting = count('waiting')
  const refused = count('refused')
  const parts: string[] = []
  if (waiting > 0) {
    const what = counted(waiting, 'sheet')
    if (phase === 'sending') parts.push(`Sending ${what}`)
    else if (phase === 'signed out')
      parts.push(`${what} on this phone, not yet sent: sign in to send ${plural(waiting, 'it', 'them')}`)
    else parts.push(`${what} on this phone, not yet sent`)
  }
  if (refused > 0) parts.push(`${counted(refused, 'sheet')} not taken by the server, to be mended`)
  return parts.length === 0 ? 'Every closed sheet is sent' : parts.join('; ')
}
