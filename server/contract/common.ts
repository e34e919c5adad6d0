import { z } from 'zod'

/** Days since which no calendar date of ours can be meant; keeps typing mistakes like year 0205 out. */
const EARLIEST_YEAR = 1900
const LATEST_YEAR = 2200

const isRealDate = (text: string): boolean => {
  const [year, month, day] = text.split('-').map(Number) as [number, number, number]
  if (year < EARLIEST_YEAR || year > LATEST_YEAR || month < 1 || month > 12 || day < 1) return false
  return day <= new Date(Date.UTC(year, month, 0)).getUTCDate()
}

/** A calendar date, `YYYY-MM-DD`, that exists. */
export const PlainDate = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/, { error: 'Give the date as YYYY-MM-DD.', abort: true })
  .refine(isRealDate, { error: `This date does not exist or is not between ${EARLIEST_YEAR} and ${LATEST_YEAR}.` })
  .meta({ id: 'PlainDate', format: 'date', example: '2026-03-02' })

/** A calendar date in an answer: one that follows from what was entered may lie outside the years taken in. */
export const Day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .meta({ id: 'Day', format: 'date', example: '2027-03-02' })

/** An instant, RFC 3339 with an offset. */
export const Instant = z.iso
  .datetime({
    offset: true,
    error: 'Give the time as RFC 3339 with an offset, as in 2026-03-02T09:00:00-05:00.',
    abort: true,
  })
  .refine((text) => isRealDate(text.slice(0, 10)), {
    error: `The year must lie between ${EARLIEST_YEAR} and ${LATEST_YEAR}.`,
  })
  .meta({ id: 'Instant', format: 'date-time', example: '2026-03-02T09:31:00-05:00' })

/** Where a leap second stands in RFC 3339. */
const LEAP_SECOND = /^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:)60(\.\d+)?/

/** An instant as a device wrote it down: its clock may have shown a leap second. `toMillis` reads it. */
export const WrittenInstant = z
  .string()
  .refine((text) => Instant.safeParse(text.replace(LEAP_SECOND, '$159')).success, {
    error: 'Give the time as RFC 3339 with an offset, as in 2026-03-02T09:00:00-05:00.',
  })
  .meta({ id: 'WrittenInstant', format: 'date-time', example: '2026-03-02T09:31:00-05:00' })

/** An RFC 9562 UUID, kept in lower case. */
export const Uuid = z.uuid({ error: 'Give a UUID as in RFC 9562.' }).toLowerCase().meta({ id: 'Uuid', format: 'uuid' })

/** PostgreSQL stores neither NUL nor half a surrogate pair. */
const storable = (text: string): boolean => !/\0|\p{Surrogate}/u.test(text)

export const storableText = (maximum: number) =>
  z
    .string()
    .max(maximum, { error: `At most ${maximum} characters.` })
    .refine(storable, { error: 'The text holds a character that cannot be stored (NUL or half a surrogate pair).' })

/** Free text that may be empty. */
export const Text = storableText(4000)

/** Text that says something: a title, a name, a reason. */
export const Words = storableText(400).refine((text) => text.trim() !== '', { error: 'This must not be blank.' })

/** A reason in the record: longer than a title, never blank. */
export const Reason = storableText(4000).refine((text) => text.trim() !== '', {
  error: 'Say why; a blank reason is none.',
})

/** A short name used in data: a standard, a measure, a fault, an arm, a certification. */
export const Code = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/, {
    error: 'A code has 1 to 64 letters, digits, dots, dashes or underscores and begins with a letter or digit.',
  })
  .meta({ id: 'Code', example: 'sword-saber-standing' })

export const Page = {
  limit: z.coerce.number<number>().int().min(1).max(500).default(100),
  after: z.string().max(4000).optional(),
}

export const PageQuery = z.strictObject(Page)

export const IdParams = z.strictObject({ id: Uuid })

/** A page of a list: `next` goes into `after` to get the following page. */
export const page = <Item extends z.ZodType>(item: Item) =>
  z.object({ items: z.array(item), next: z.string().nullable() })

export const Created = z.object({ id: Uuid })

/** An answer that is a file. */
export const FileAnswer = z.string().describe('The file.')

/** An answer that goes on and on, as in the standard of server-sent events. */
export const EventStream = z.string().describe('text/event-stream')
