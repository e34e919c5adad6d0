import type { Readiness } from '#contract/standards/certifications.ts'

/** Whoever need not hold a certification and never began one is left off the list. */
export const worthARow = ({ required, status }: Pick<Readiness['items'][number], 'required' | 'status'>): boolean =>
  required || status !== 'no test yet'
