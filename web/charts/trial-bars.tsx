import './trial-bars.css'

export type TrialMark = 'correct' | 'incorrect' | null

const STEP = 9
const BAR = 6

interface TrialBarsProps {
  marks: readonly TrialMark[]
  /** Trials of the standard; those beyond the marks were not called. */
  trials: number
  height?: number
}

/** One bar a trial: tall and solid correct, short and hollow incorrect, a dot not called. The words belong beside it. */
export function TrialBars({ marks, trials, height = 26 }: TrialBarsProps) {
  const all = Array.from({ length: Math.max(trials, marks.length) }, (_, index) => marks[index] ?? null)
  const width = all.length * STEP + 3
  return (
    <svg
      className="trial-bars"
      width={(width * height) / 26}
      height={height}
      viewBox={`0 0 ${width} 26`}
      aria-hidden="true"
    >
      {all.map((mark, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a trial is its place
        <Bar key={index} mark={mark} x={3 + index * STEP} />
      ))}
    </svg>
  )
}

function Bar({ mark, x }: { mark: TrialMark; x: number }) {
  if (mark === 'correct') return <rect x={x} y="2" width={BAR} height="22" fill="currentColor" />
  if (mark === 'incorrect') {
    return <rect x={x + 0.8} y="14.8" width={4.4} height="8.4" fill="none" stroke="currentColor" strokeWidth="1.6" />
  }
  return <rect x={x + 2} y="21" width="2.4" height="2.4" fill="currentColor" />
}

const WORDS = { correct: 'correct', incorrect: 'incorrect', blank: 'not called' }

/** The marks in words, for those who do not see the bars: "correct, incorrect, not called". */
export const formatTrials = (marks: readonly TrialMark[], trials: number): string =>
  Array.from({ length: trials }, (_, index) => WORDS[marks[index] ?? 'blank']).join(', ')
