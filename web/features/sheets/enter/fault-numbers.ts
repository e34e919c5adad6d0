interface Fault {
  readonly code: string
}

/** The numbers on paper of the faults noted, as they are typed: "2 5". On paper a measure's faults are numbered from 1. */
export const toFaultNumbers = (faults: readonly Fault[], noted: readonly string[]): string =>
  faults.flatMap(({ code }, index) => (noted.includes(code) ? [index + 1] : [])).join(' ')

/**
 * The faults that typed numbers stand for, between them whatever is no digit: "2 5", "2,5". Out: their codes, each once in
 * the order of the paper, and the numbers that the measure has no fault for.
 */
export const readFaultNumbers = (faults: readonly Fault[], typed: string): { codes: string[]; unknown: string[] } => {
  const numbers = typed.split(/\D+/).filter(Boolean)
  const places = new Set(numbers.map((number) => Number(number) - 1))
  return {
    codes: faults.flatMap(({ code }, index) => (places.has(index) ? [code] : [])),
    unknown: [...new Set(numbers.filter((number) => faults[Number(number) - 1] === undefined))],
  }
}
