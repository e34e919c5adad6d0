import type { RosterItem } from '../../contract/imports/import-items.ts'
import { isSameName } from '../../domain/import/same-name.ts'
import type { KnownSoldier } from '../db/import-people.db.ts'
import type { Questions } from './questions.ts'
import type { Given } from './run.ts'

type Row = Given<RosterItem>
interface Names {
  readonly familyName: string
  readonly givenName: string
}

/** What the rows about one roster number call the soldier; or why they cannot be about one, by row. */
export type Identity =
  | { readonly names: Names | null; readonly isCorrected: boolean }
  | { readonly wrong: ReadonlyMap<Row, string> }

/**
 * Finds out whom the rows of one roster number are about. Rows that name two people are refused; a name that differs from
 * the roster's is asked about, for it may be a correction or somebody else under a number that is taken.
 */
export function identityOf(rows: readonly Row[], known: KnownSoldier | undefined, questions: Questions): Identity {
  const [first, other] = differing(rows)
  if (first && other) {
    const sentence = `Row ${first.rows[0]} says ${nameOf(first.item)} and row ${other.rows[0]} says ${nameOf(other.item)} under the number ${first.item.rosterNumber}. One number is one soldier: mend a number or a name.`
    return { wrong: new Map(rows.map((row) => [row, sentence])) }
  }
  const last = (key: keyof Names) => rows.map(({ item }) => item[key]).findLast((name) => name !== undefined)
  const [familyName, givenName] = [last('familyName') ?? known?.familyName, last('givenName') ?? known?.givenName]
  if (familyName === undefined || givenName === undefined) return { names: null, isCorrected: false }
  const names = { familyName, givenName }
  if (!known) return { names, isCorrected: false }
  const here = { familyName: known.familyName, givenName: known.givenName }
  if (isSameName(familyName, known.familyName) && isSameName(givenName, known.givenName)) {
    return { names: here, isCorrected: false }
  }
  const answer = questions.ask(
    rows.flatMap((row) => row.rows),
    {
      about: 'name',
      known: nameOf(known),
      given: nameOf(names),
      rosterNumber: known.rosterNumber,
      choices: ['as-here', 'as-given', 'leave-out'],
    },
  )
  if (answer === 'as-here') return { names: here, isCorrected: false }
  if (answer === 'as-given') return { names, isCorrected: true }
  const sentence =
    answer === 'leave-out'
      ? `Left out, as you said: the number ${known.rosterNumber} is that of ${nameOf(known)}.`
      : `On the roster ${known.rosterNumber} is ${nameOf(known)}; the file says ${nameOf(names)}. Say whether it is the same person.`
  return { wrong: new Map(rows.map((row) => [row, sentence])) }
}

/** Two rows that cannot mean the same person. */
function differing(rows: readonly Row[]): [Row?, Row?] {
  for (const key of ['familyName', 'givenName'] as const) {
    const named = rows.filter(({ item }) => item[key] !== undefined)
    const other = named.find(({ item }) => !isSameName(item[key]!, named[0]!.item[key]!))
    if (other) return [named[0], other]
  }
  return []
}

const nameOf = ({ familyName, givenName }: Partial<Names>): string => [familyName, givenName].filter(Boolean).join(', ')
