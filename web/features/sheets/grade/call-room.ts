import type { Standard } from '#contract/standards/standards.ts'
import type { CallLine } from './call-words.ts'

interface Content {
  lines: readonly CallLine[]
  call: Standard['calls'][number]
  run: number
  gauges: number
  faults: readonly { readonly title: string }[]
}

/** So many characters of a line of checks stand side by side on a phone held upright; of a command; of a fault, two in a row. */
const ACROSS = { look: 38, command: 22, fault: 17 }

const rows = (text: string, across: number): number => Math.ceil(text.length / across)

/**
 * How many rows of text a call needs on its page, in rows as high as a line of checks: from it the page works out how large it can
 * write, so that a short call is read from further away. An estimate; what does not fit scrolls, and is announced.
 */
export const rowsOfCall = ({ lines, call, run, gauges, faults }: Content): number => {
  const said = lines
    .filter(({ kind }) => kind === 'command')
    .map(({ text, execution, look }) => {
      const looks = look.reduce((sum, title) => sum + rows(title, ACROSS.look), 0)
      return looks + 1.7 * rows(`${text}, ${execution}`, ACROSS.command)
    })
  const pairs = Array.from({ length: Math.ceil(faults.length / 2) }, (_, row) => faults.slice(2 * row, 2 * row + 2))
  const offered = pairs.map((pair) => 0.8 + Math.max(...pair.map(({ title }) => rows(title, ACROSS.fault))))
  const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0)
  const words = [call.cadence, call.finish?.join(' · ')].map((text) => rows(text ?? '', ACROSS.look))
  return 2.2 + sum(said) + sum(offered) + sum(words) + (run > 1 ? 1 + 2.6 * run : 0) + 2.8 * gauges
}
