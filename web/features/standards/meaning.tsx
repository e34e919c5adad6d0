import type { CertificationBody } from '#contract/standards/certifications.ts'
import { canBeMeant, formatMeaning } from './format-meaning.ts'

interface MeaningProps {
  terms: CertificationBody
  /** Terms that hold until then: what they say otherwise stands beside. */
  before?: CertificationBody | undefined
  today: string
}

/** Terms as what happens to somebody tested on their first day; each sentence that is new, with what holds until then. */
export function Meaning({ terms, before, today }: MeaningProps) {
  const on = terms.effectiveFrom || today
  if (!canBeMeant(terms)) return null
  const until = before ? formatMeaning(before, on, today) : []
  return (
    <ul className="terms-meaning" aria-live="polite" aria-label="What these terms mean">
      {formatMeaning(terms, on, today).map((sentence, at) => (
        <li key={sentence}>
          {sentence}
          {before && until[at] !== sentence && <span className="muted"> As it is now: {until[at]}</span>}
        </li>
      ))}
    </ul>
  )
}
