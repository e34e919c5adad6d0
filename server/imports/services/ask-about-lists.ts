import { readArms, readGrades } from '../../arms-and-grades/db/arms-and-grades.db.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import type { ImportKind } from '../../contract/imports/imports.ts'
import { editDistance } from '../../domain/import/edit-distance.ts'
import type { ReadFile } from './read-file.ts'
import type { Given, Run, Verdict } from './run.ts'

type Kind = 'grade' | 'arm'

/** Whatever names grades and arms: a soldier, a sheet, a standard, a ceremony with its posts. */
interface Naming {
  readonly grade?: string | null
  readonly arm?: string | null
  readonly grades?: readonly string[] | null
  readonly arms?: readonly string[] | null
  readonly posts?: readonly Naming[]
}

/**
 * Asks about each grade and arm of a file that the unit's lists do not have: whether it is new, or which one is meant. New
 * ones go into the lists. Out: the file with what is meant in its place; rows about which nothing is said yet are refused.
 */
export async function askAboutLists(run: Run, kind: ImportKind, file: ReadFile): Promise<ReadFile> {
  const { tx, note, trial, questions } = run
  const known = {
    grade: (await readGrades(tx)).map(({ code }) => code),
    arm: (await readArms(tx)).map(({ code }) => code),
  }
  const isKnown = { grade: new Set(known.grade), arm: new Set(known.arm) }
  const added: Record<Kind, string[]> = { grade: [], arm: [] }
  const refused = new Map(file.refused)
  const given = (file.given as readonly Given<Naming>[]).flatMap((one): Given<Naming>[] => {
    const faults: string[] = []
    const item = withCodes(one.item, (about, code) => {
      if (isKnown[about].has(code)) return code
      const choices = ['add', 'leave-out', ...nearest(code, known[about]).map((other) => `as:${other}`)]
      const answer = questions.ask(one.rows, { about, known: null, given: code, rosterNumber: null, choices })
      if (answer === 'add') added[about].push(code)
      else if (answer?.startsWith('as:')) return answer.slice('as:'.length)
      else faults.push(sayOpen(about, code, answer))
      return code
    })
    const open = [...new Set(faults)]
    if (open.length === 0) return [{ ...one, item }]
    // Of a soldier all is said that is wrong; the rest is looked at once these are known.
    if (kind === 'roster') return [{ ...one, item, faults: open }]
    const verdict: Verdict = { outcome: 'refused', about: `Row ${one.rows[0]}`, reasons: open }
    for (const row of one.rows) refused.set(row, verdict)
    return []
  })
  if (!trial) await noteNew(tx, note, { grades: added.grade, arms: added.arm }, true)
  return { given: given as readonly Given<unknown>[] as readonly Given<never>[], refused }
}

const sayOpen = (about: Kind, code: string, answer: string | null): string =>
  answer === 'leave-out'
    ? `Left out, as you said of the ${about} ${code}.`
    : `The list of ${about}s has no ${code}. Say whether it is new, or which one is meant.`

/** Most alike first, then in the order of the list. */
const nearest = (code: string, known: readonly string[]): string[] => {
  const distance = (other: string) => Math.min(3, editDistance(code.toLowerCase(), other.toLowerCase()))
  return [...known].sort((a, b) => distance(a) - distance(b))
}

function withCodes<Item extends Naming>(item: Item, meant: (about: Kind, code: string) => string): Item {
  const { grade, arm, grades, arms, posts } = item
  const all = (about: Kind, codes: readonly string[]) => [...new Set(codes.map((code) => meant(about, code)))]
  return {
    ...item,
    ...(grade && { grade: meant('grade', grade) }),
    ...(arm && { arm: meant('arm', arm) }),
    ...(grades && { grades: all('grade', grades) }),
    ...(arms && { arms: all('arm', arms) }),
    ...(posts && { posts: posts.map((post) => withCodes(post, meant)) }),
  }
}
