import type { Basis } from '#contract/findings/basis.ts'
import { formatBasis } from './format-basis.ts'

/** At the foot of a page: what its figures rest on, and what they leave out. */
export function RestsOn({ basis }: { basis: Basis }) {
  return <p className="rests-on">{formatBasis(basis)}</p>
}
