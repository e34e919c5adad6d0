import type { CommandersWords } from '#contract/readiness/commanders-words.ts'
import { formatDay } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'

export interface WordLine {
  id: string
  kind: 'approvals' | 'extensions'
  what: string
  isTakenBack: boolean
}

/** With a full stop, where what somebody wrote does not end a sentence itself. */
const ended = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`)

/** What commanders said, a sentence each, the latest first. */
export const wordLines = (
  { decisions, extensions }: CommandersWords,
  titleOf: (certification: string) => string,
  today: string,
): WordLine[] => {
  const ending = ({ takenBack }: Pick<CommandersWords['decisions'][number], 'takenBack'>) =>
    takenBack ? ` Taken back on ${formatDay(takenBack.on, today)}: ${ended(takenBack.reason)}` : ''
  const by = (name: string | null) => (name === null ? '' : ` by ${name}`)
  const all = [
    ...decisions.map((one) => {
      const word = one.decision === 'approve' ? 'signed' : 'refused'
      const reason = one.reason ? `: ${one.reason}` : ''
      const what = `${titleOf(one.certification)} ${word} on ${formatDay(one.on, today)}${by(one.by)}${ended(reason)}${ending(one)}`
      return { ...one, kind: 'approvals' as const, what }
    }),
    ...extensions.map((one) => {
      const why = `${one.kind}: ${ended(one.reason)}`
      const what = `${titleOf(one.certification)} extended by ${counted(one.days, 'day')} on ${formatDay(one.on, today)}${by(one.by)}, ${why}${ending(one)}`
      return { ...one, kind: 'extensions' as const, what }
    }),
  ].sort((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0))
  return all.map(({ id, kind, what, takenBack }) => ({ id, kind, what, isTakenBack: takenBack !== null }))
}
