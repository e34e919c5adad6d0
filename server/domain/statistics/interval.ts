/** A closed interval of a rate, a coefficient or a time, `low` ≤ `high`, in the unit of what it belongs to. */
export type Interval = { low: number; high: number }
