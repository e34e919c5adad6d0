import { z } from 'zod'

/** A closed interval of a rate, a coefficient or a time, at the answer's `level`. */
export const Interval = z.object({ low: z.number(), high: z.number() }).meta({ id: 'Interval' })
