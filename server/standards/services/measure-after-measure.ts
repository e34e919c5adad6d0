import type { StandardBody } from '../../contract/standards/standards.ts'

/** The order of calls where none is given: each measure its trials running, measure after measure. */
export const measureAfterMeasure = ({ minors, rule }: Pick<StandardBody, 'minors' | 'rule'>): StandardBody['calls'] =>
  minors.flatMap(({ code }) => Array.from({ length: rule.trials }, (_, index) => ({ measure: code, trial: index + 1 })))
