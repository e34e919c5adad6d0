import type { Import, ImportKind, RowOutcome } from '#contract/imports/imports.ts'
import { figure, plural } from '../../words/format-number.ts'

export const KINDS: Readonly<Record<ImportKind, { name: string; what: string }>> = {
  roster: { name: 'Roster', what: 'Soldiers with grade, unit and what they carry; a further row for each move.' },
  awards: { name: 'Carried-over awards', what: 'Certifications earned on paper, each with its evidence.' },
  results: { name: 'Old results', what: 'Tests of which only GO or NO-GO is left.' },
  sponsorships: { name: 'Sponsorships', what: 'Who coaches whom, from when to when.' },
  appointments: { name: 'Grader appointments', what: 'Who may grade which standard.' },
  sheets: { name: 'Grade sheets', what: 'Whole sheets, one a row, a column a measure.' },
  standards: { name: 'Standards', what: 'One row a measure; they come as drafts.' },
  ceremonies: { name: 'Ceremonies', what: 'One row a post.' },
}

export const KIND_NAMES = Object.keys(KINDS) as ImportKind[]

export const OUTCOMES: Readonly<Record<RowOutcome, string>> = {
  added: 'Added',
  changed: 'Changed',
  unchanged: 'There already',
  held: 'Held',
  refused: 'Refused',
}
export const OUTCOME_NAMES = Object.keys(OUTCOMES) as RowOutcome[]

const rows = (count: number): string => `${figure(count)} ${count === 1 ? 'row' : 'rows'}`

/** The one sentence about a file. */
export function formatImport({ state, rows: all, counts, stage }: Import): string {
  switch (state) {
    case 'checking':
      return 'The file is being checked.'
    case 'storing':
      return stage === 'recording' ? 'The file is nearly stored.' : 'The file is being stored.'
    case 'checked':
      return formatChecked(counts!)
    case 'stored':
      return formatStored(counts!.added + counts!.changed + counts!.held)
    case 'failed':
      return 'Nothing of this file was stored.'
    case 'cancelled':
      return 'This was cancelled; nothing was stored.'
    default:
      return `${rows(all)} ${plural(all, 'waits', 'wait')} to be looked at.`
  }
}

function formatChecked({ added, changed, held, refused }: NonNullable<Import['counts']>): string {
  const news = added + changed + held
  if (news === 0 && refused === 0) return 'All of this file is in the record already.'
  if (news === 0) return 'Nothing of this file can be stored as it is.'
  return refused === 0 ? `${rows(news)} can be stored.` : `${rows(news)} can be stored, ${figure(refused)} cannot.`
}

/** What storing will do, in figures. */
export function formatStoring({ counts }: Import): string {
  const { added, changed, unchanged, held, refused } = counts!
  const parts = [
    added > 0 && `adds ${figure(added)}`,
    changed > 0 && `changes ${figure(changed)}`,
    held > 0 && `keeps ${figure(held)} held for a decision`,
    unchanged > 0 && `finds ${figure(unchanged)} there already`,
  ].filter((part) => part !== false)
  const stay =
    refused === 0
      ? ''
      : refused === 1
        ? ' One row stays out; it can be corrected and sent again.'
        : ` ${rows(refused)} stay out; they can be corrected and sent again.`
  return `It ${parts.join(', ') || 'changes nothing'}.${stay}`
}

const STAGES: Readonly<Record<string, string>> = {
  begin: 'Begins',
  reading: 'Reads the rows',
  soldiers: 'Writes the soldiers',
  awards: 'Writes the awards',
  sheets: 'Writes the sheets',
  ceremonies: 'Writes the ceremonies',
  judging: 'Works out whose standing changes',
  noting: 'Records the outcome of each row',
  recording: 'Writes the record of changes',
}

export const formatStage = (stage: string): string => STAGES[stage] ?? 'Works'

export const DATE_ANSWERS = {
  'day-first': 'The day comes first',
  'month-first': 'The month comes first',
  'year-first': 'The year comes first',
  'serial-1900': 'Days counted from 1900',
  'serial-1904': 'Days counted from 1904',
} as const

const formatStored = (count: number): string =>
  `${rows(count)} of the file ${plural(count, 'is', 'are')} in the record.`
