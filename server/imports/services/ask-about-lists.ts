import { readArms, readGrades } from '../../arms-and-grades/db/arms-and-grades.db.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import { editDistance } from '../../domain/import/edit-distance.ts'
import type { Given, Run } from './run.ts'

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
 * ones go into the lists. Out: the rows with what is meant in its place; to say nothing yet about one is a fault.
 */
export async function askAboutLists(run: Run, rows: readonly Given<never>[]): Promise<Given<never>[]> {
  const { tx, note, trial, questions } = run
  const known = {
    grade: (await readGrades(tx)).map(({ code }) => code),
    arm: (await readArms(tx)).map(({ code }) => code),
  }
  const isKnown = { grade: new Set(known.grade), arm: new Set(known.arm) }
  const added: Record<Kind, string[]> = { grade: [], arm: [] }
  const given = (rows as readonly Given<Naming>[]).map((one): Given<Naming> => {
    const faults: string[] = []
    const item = withCodes(one.item, (about, code) => {
      if (isKnown[about].has(code)) return code
      const choices = ['add', 'leave-out', ...nearest(code, known[about]).map((other) => `as:${other}`)]
      const answer = questions.ask(one.rows, { about, known: null, given: code, rosterNumber: null, choices })
      if (answer === 'add') {
        if (one.faults.length === 0) added[about].push(code)
      } else if (answer?.startsWith('as:')) return answer.slice('as:'.length)
      else faults.push(formatOpen(about, code, answer))
      return code
    })
    return { ...one, item, faults: [...one.faults, ...new Set(faults)] }
  })
  if (!trial) await noteNew(tx, note, { grades: added.grade, arms: added.arm }, true)
  return given as Given<unknown>[] as Given<never>[]
}

const formatOpen = (about: Kind, code: string, answer: string | null): string =>
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
