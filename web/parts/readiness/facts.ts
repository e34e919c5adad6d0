import type { Fact } from '../../ui/table-cells.ts'
import type { DateCell } from '../../ui/to-csv.ts'

/** A column with one day: a real date in a file. */
export const dayFact = <Row>(head: string, of: (row: Row) => string | null | undefined): Fact<Row> => ({
  head,
  of: (row) => asDay(of(row)),
})

/** A column with one moment: a real date and time in a file, in UTC. */
export const momentFact = <Row>(head: string, of: (row: Row) => string | null | undefined): Fact<Row> => ({
  head: `${head} (UTC)`,
  of: (row) => {
    const moment = of(row)
    return moment ? { moment: new Date(moment).toISOString() } : null
  },
})

/** A column with words or a figure. */
export const fact = <Row>(head: string, of: (row: Row) => string | number | null | undefined): Fact<Row> => ({
  head,
  of: (row) => of(row) ?? null,
})

interface Bounds {
  low: number | null
  high: number | null
}

/** A figure and the interval it lies in, a column each, as the numbers they are: shares from 0 to 1. */
export const boundedFacts = <Row>(
  head: string,
  of: (row: Row) => { value: number | null; interval: Bounds | null } | null,
): Fact<Row>[] => [
  fact(head, (row) => of(row)?.value),
  fact(`${head}, from`, (row) => of(row)?.interval?.low),
  fact(`${head}, to`, (row) => of(row)?.interval?.high),
]

const asDay = (day: string | null | undefined): DateCell | null => (day ? { day } : null)

interface Named {
  grade: string | null
  name: string
}

/** Grade and name of a soldier, and the roster number where it is known, a column each. */
export const soldierFacts = <Row extends Named & { rosterNumber?: string }>(withNumber = false): Fact<Row>[] => [
  ...(withNumber ? [fact<Row>('Roster number', ({ rosterNumber }) => rosterNumber)] : []),
  fact<Row>('Grade', ({ grade }) => grade),
  fact<Row>('Name', ({ name }) => name),
]
