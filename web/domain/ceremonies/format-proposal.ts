import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { ManningProposal } from '#contract/plans/manning.ts'
import { formatDay } from '../../words/format-day.ts'
import { capital, counted, countedInWords, inWords, listed } from '../../words/format-number.ts'

type Post = CeremonyDetail['formation'][number]
type Proposed = ManningProposal['posts'][number]['soldier']
type Short = ManningProposal['short'][number]
type Helper = Short['wouldHelp'][number]

const STOOD = ['not at all', 'once', 'twice']

/** How often somebody stood lately: "stood twice in 90 days". */
export const formatStood = ({ stood }: Pick<Proposed, 'stood'>): string =>
  stood === 0 ? 'has not stood in 90 days' : `stood ${STOOD[stood] ?? `${inWords(stood)} times`} in 90 days`

/** The names of posts, those that only a number tells apart together: "Sentry 1 to 4 and Escort of the wreath". */
export function formatTitles(titles: readonly string[]): string {
  const said: { stem: string; numbers: number[] }[] = []
  for (const title of titles) {
    const [, stem = title, number] = /^(.*?)\s+(\d+)$/.exec(title) ?? []
    const known = number === undefined ? undefined : said.find((one) => one.stem === stem)
    if (known) known.numbers.push(Number(number))
    else said.push({ stem, numbers: number === undefined ? [] : [Number(number)] })
  }
  return listed(said.map(({ stem, numbers }) => (numbers.length === 0 ? stem : `${stem} ${formatNumbers(numbers)}`)))
}

function formatNumbers(numbers: readonly number[]): string {
  const sorted = [...numbers].sort((a, b) => a - b)
  const isRow = sorted.length > 2 && sorted.every((number, at) => number === sorted[0]! + at)
  return isRow ? `${sorted[0]} to ${sorted.at(-1)}` : listed(sorted.map(String))
}

/** What can be done about the open posts: "Somebody can stand at three of the four short posts." */
export function formatProposal({ open, posts }: Pick<ManningProposal, 'open' | 'posts'>): string {
  if (open === 0) return ''
  if (posts.length === 0) return `None of yours can stand at ${open === 1 ? 'the short post' : 'any short post'}.`
  if (posts.length === open)
    return `Somebody can stand at ${open === 1 ? 'the short post' : `all ${inWords(open)} short posts`}.`
  return `Somebody can stand at ${inWords(posts.length)} of the ${inWords(open)} short posts.`
}

/** How the load lies, of nobody in particular. */
export function formatFair(fair: ManningProposal['fair']): string {
  if (!fair) return ''
  const range = ({ least, most }: { least: number; most: number }) =>
    least === most ? inWords(least) : `${inWords(least)} to ${inWords(most)}`
  const own = `Those proposed stood at ${range(fair)} ${fair.most === 1 ? 'ceremony' : 'ceremonies'} in the 90 days before`
  return fair.others ? `${own}, the others who could at ${range(fair.others)}.` : `${own}; nobody else could.`
}

/** Sets of posts that want the same soldiers are said together. */
export function joinShort(short: readonly Short[]): Short[] {
  const joined = new Map<string, Short>()
  for (const one of short) {
    const key = one.soldiers.map(({ soldierId }) => soldierId).join()
    const known = joined.get(key)
    joined.set(key, known ? { ...known, posts: [...new Set([...known.posts, ...one.posts])] } : one)
  }
  return [...joined.values()]
}

/** The smallest competing set: "Sentry 1 to 4 have three soldiers between them: SPC …". */
export function formatShort({ posts, soldiers }: Short, formation: readonly Post[]): string {
  const titles = formation.filter(({ id }) => posts.includes(id)).map(({ title }) => title)
  const who = formatTitles(titles)
  if (soldiers.length === 0) return `${who}: nobody may stand there.`
  const names = listed(soldiers.map(({ grade, name }) => `${grade} ${name}`))
  const have = posts.length === 1 ? 'has' : 'have'
  return `${who} ${have} ${countedInWords(soldiers.length, 'soldier')} between them: ${names}.`
}

/** How somebody would end it: "if passed: Rifle, possible Wed 2 Dec". */
export function formatHelp(
  { by, tests, until }: Helper,
  today: string,
  standardTitle: (code: string) => string,
): string {
  if (by === 'absence') return `but for an absence (${until})`
  if (by === 'duty') return `but for another duty: ${until}`
  const each = tests.map(
    ({ standard, on, booked }) =>
      `${standardTitle(standard)}, ${booked ? 'booked' : 'a slot is free'} ${formatDay(on, today)}`,
  )
  return `if passed: ${listed(each)}`
}

/** A chance in words that claim no more than there is: "about 7 of 10 such soldiers make it". */
export function formatChance(chance: number): string {
  const tenths = Math.round(chance * 10)
  if (tenths >= 10) return 'nearly all such soldiers pass'
  return tenths === 0 ? 'hardly any such soldier passes' : `about ${tenths} of 10 such soldiers pass`
}

/** What was just done: "SPC Ashford is named to Sentry 1." or "3 soldiers are named." */
export function formatNamed(posts: ManningProposal['posts'], formation: readonly Post[]): string {
  const [first] = posts
  if (posts.length !== 1 || !first) return `${counted(posts.length, 'soldier')} are named as proposed.`
  const title = formation.find(({ id }) => id === first.postId)?.title ?? ''
  return `${first.soldier.grade} ${first.soldier.name} is named to ${title}.`
}

/** "Second rank". */
export const formatRank = (row: number): string =>
  capital(`${['front', 'second', 'third', 'fourth', 'fifth'][row - 1] ?? `${row}th`} rank`)
