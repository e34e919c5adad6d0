import type { RowOutcome } from '#contract/imports/imports.ts'
import { OUTCOMES } from './format-import.ts'

const SHAPES: Readonly<Record<RowOutcome, React.ReactNode>> = {
  added: <path d="M8 2v12M2 8h12" stroke="currentColor" strokeWidth="2.2" />,
  changed: <path d="M2 5.5h12M2 10.5h8" stroke="currentColor" strokeWidth="2.2" />,
  unchanged: <circle cx="8" cy="8" r="2.4" fill="currentColor" />,
  held: <path d="M5 3v10M11 3v10" stroke="currentColor" strokeWidth="2.2" />,
  refused: <path d="M3 3l10 10M13 3 3 13" stroke="currentColor" strokeWidth="2.2" />,
}

/** What becomes of a row, by shape and word. */
export function OutcomeMark({ outcome }: { outcome: RowOutcome }) {
  return (
    <span className={`import-outcome import-outcome-${outcome}`}>
      <svg width="14" height="14" viewBox="0 0 16 16" fill="none" aria-hidden="true">
        {SHAPES[outcome]}
      </svg>
      {OUTCOMES[outcome]}
    </span>
  )
}
