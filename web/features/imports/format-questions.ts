import type { ImportQuestion } from '#contract/imports/imports.ts'
import { figure } from '../../words/format-number.ts'

export const formatOpenQuestions = (open: number): string =>
  open === 0
    ? 'all is said'
    : `${open === 1 ? 'one question is' : `${figure(open)} questions are`} open; rows they are about stay out until then`

/** An answer as one chooses it. */
export function formatChoice({ about, given }: ImportQuestion, choice: string): string {
  switch (choice) {
    case 'as-here':
      return 'The same person; the name on the roster is right'
    case 'as-given':
      return 'The same person; the name in the file is right'
    case 'add':
      return `${given} is right: add it to the list of ${about}s`
    case 'leave-out':
      return about === 'name' ? 'Somebody else: leave these rows out' : `${given} is wrong: leave these rows out`
    default:
      return `${choice.slice('as:'.length)} is meant`
  }
}

/** Where in the file it is. */
export const formatWhere = ({ rows, firstRows }: ImportQuestion): string =>
  rows === 1
    ? `In row ${firstRows[0]}.`
    : `In ${figure(rows)} rows: ${firstRows.join(', ')}${rows > firstRows.length ? ' and more' : ''}.`
