import { ofAll } from '../../words/of-all.ts'
import { listed } from '../../words/say-number.ts'

const FAULTS_SHOWN = 3

interface Judged {
  faults: readonly { code: string; count: number }[]
  rest: { verdict: 'higher' | 'lower' | 'not-shown' } | null
}

const RESTS = { higher: 'More often than in the other units.', lower: 'Less often than in the other units.' }

/** The faults noted most: "Elbow bent 12, Head moved 3". */
const sayFaults = (faults: Judged['faults'], titleOf: (fault: string) => string): string =>
  [...faults]
    .sort((a, b) => b.count - a.count)
    .slice(0, FAULTS_SHOWN)
    .map(({ code, count }) => `${titleOf(code)} ${count}`)
    .join(', ')

/** What else is known of a measure: a difference to the other units where it is shown, incorrect trials, faults. */
export const sayDetails = (
  { faults, rest }: Judged,
  trials: { incorrect: number; trials: number } | null,
  titleOf: (fault: string) => string,
): string => {
  const difference = rest && rest.verdict !== 'not-shown' ? `${RESTS[rest.verdict]} ` : ''
  const parts = [trials ? `trials incorrect ${ofAll(trials.incorrect, trials.trials)}` : '', sayFaults(faults, titleOf)]
  return difference + parts.filter(Boolean).join('; ')
}

/** Which versions of the standard a figure is from, where a later one defines the measure otherwise. */
export const sayVersions = ({ versions, current }: { versions: readonly number[]; current: boolean }): string =>
  current ? '' : `as defined in version ${listed(versions.map(String))}`
