import type { Standard } from '#contract/standards/standards.ts'

type Call = Standard['calls'][number]

/** The words of a call: "Draw, SWORD" for one arm; "Draw, SWORD / SABER" without one. */
export const formatCall = ({ preparatory, execution }: Call, arm?: string): string => {
  const executed =
    typeof execution === 'object'
      ? ((arm && execution[arm]) ?? [...new Set(Object.values(execution))].join(' / '))
      : execution
  return [preparatory, executed].filter(Boolean).join(', ')
}
