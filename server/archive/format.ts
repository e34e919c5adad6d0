import { z } from 'zod'

/** Our own format: a gzipped tar of JSON lines. Goes up when a reader of the present one could no longer read it. */
export const FORMAT = 'reviewstand-archive'
export const FORMAT_VERSION = 1

/** The first file, so that a reader knows at once whether it can read the rest; and the last, with what must be there. */
export const HEAD_FILE = 'archive.json'
export const MANIFEST_FILE = 'manifest.json'

/** In a row: the columns that hold the JSON value null, where nothing is written as null, too. No column has such a name. */
export const JSON_NULLS = '$null'

/** Whatever the version: enough to say that it cannot be read here. */
export const AnyHead = z.looseObject({ format: z.literal(FORMAT), formatVersion: z.int().min(1), product: z.string() })

/** What an archive says of itself. */
export const Head = z.strictObject({
  format: z.literal(FORMAT),
  formatVersion: z.literal(FORMAT_VERSION),
  /** Version of the product that wrote it. */
  product: z.string(),
  /** The one moment at which everything in it was as it is in it. */
  takenAt: z.iso.datetime(),
  /** Zone of units that name none, by the settings of the server it was taken from. */
  timeZone: z.string(),
  /** Whether it holds the demo, whose passwords are public. */
  demo: z.boolean(),
  /** The migrations that had made the schema, in order, with the SHA-256 of each. */
  migrations: z.array(z.strictObject({ name: z.string(), checksum: z.string() })).min(1),
})

/** What must be in an archive. */
export const Manifest = z.strictObject({
  head: Head,
  tables: z.array(z.strictObject({ table: z.string(), columns: z.array(z.string()).min(1), rows: z.int().min(0) })),
  /** Every file but the manifest, in order, with the SHA-256 of its bytes in hexadecimal. */
  files: z.array(z.strictObject({ name: z.string(), rows: z.int().min(0), sha256: z.string() })),
})

export type Head = z.infer<typeof Head>
export type Manifest = z.infer<typeof Manifest>

/** Name of a part of a table: what the table is called, and which part of it, from 1. */
export const partName = (table: string, part: number): string =>
  `tables/${table}.${String(part).padStart(6, '0')}.jsonl`

/** The table a file is part of; null: it is none. */
export const tableOfPart = (name: string): string | null => /^tables\/(\w+)\.\d{6}\.jsonl$/.exec(name)?.[1] ?? null
