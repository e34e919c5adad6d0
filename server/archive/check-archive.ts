import { StartProblem } from '../config/start-problem.ts'
import { AnyHead, FORMAT_VERSION, HEAD_FILE, Head, MANIFEST_FILE, Manifest, tableOfPart } from './format.ts'
import { type ArchiveEntry, readEntries } from './read-entries.ts'

const NEWLINE = 10

/**
 * Reads an archive from its first byte to its last and compares all of it with its manifest.
 * @returns the manifest, to which everything fits
 * @throws StartProblem that says what does not; nothing was changed then
 */
export async function checkArchive(file: string): Promise<Manifest> {
  const seen: { name: string; rows: number; sha256: string }[] = []
  let head: Head | null = null
  let manifest: Manifest | null = null
  for await (const entry of readEntries(file)) {
    if (manifest !== null) throw unfit(file, `${entry.name} comes after the manifest`)
    head ??= readHeadOf(file, entry)
    if (entry.name === MANIFEST_FILE) manifest = readManifest(file, entry)
    else seen.push({ name: entry.name, rows: entry.name === HEAD_FILE ? 0 : linesIn(entry), sha256: entry.sha256 })
  }
  if (head === null || manifest === null) throw unfit(file, 'its end is missing')
  compare(file, head, manifest, seen)
  return manifest
}

function readHeadOf(file: string, { name, content }: ArchiveEntry): Head {
  const parsed = name === HEAD_FILE ? AnyHead.safeParse(fromJson(content)) : null
  if (!parsed?.success) throw unfit(file, 'it does not begin as an archive of Reviewstand does')
  const { formatVersion, product } = parsed.data
  if (formatVersion > FORMAT_VERSION) {
    throw new StartProblem(
      `${file} was made by a newer Reviewstand (${product}; archive format ${formatVersion}, this one reads up to ` +
        `${FORMAT_VERSION}). Nothing was changed. Restore it with that version.`,
    )
  }
  const head = Head.safeParse(fromJson(content))
  if (!head.success) throw unfit(file, `what ${HEAD_FILE} says is not as it must be`)
  return head.data
}

function readManifest(file: string, { content }: ArchiveEntry): Manifest {
  const parsed = Manifest.safeParse(fromJson(content))
  if (!parsed.success) throw unfit(file, 'its manifest is not as it must be')
  return parsed.data
}

function compare(file: string, head: Head, { head: told, tables, files }: Manifest, seen: Manifest['files']): void {
  if (JSON.stringify(head) !== JSON.stringify(told)) throw unfit(file, 'its beginning and its manifest differ')
  for (const [place, { name, rows, sha256 }] of files.entries()) {
    const found = seen[place]
    if (found?.name !== name) throw unfit(file, `${name} is missing`)
    if (found.sha256 !== sha256) throw unfit(file, `${name} was changed after it was written (its checksum differs)`)
    if (found.rows !== rows) throw unfit(file, `${name} has ${found.rows} rows, the manifest says ${rows}`)
  }
  if (seen.length > files.length) throw unfit(file, `${seen[files.length]!.name} is not in its manifest`)
  const rowsOf = new Map(tables.map(({ table }) => [table, 0]))
  for (const { name, rows } of files) {
    if (name === HEAD_FILE) continue
    const table = tableOfPart(name)
    if (table === null || !rowsOf.has(table)) throw unfit(file, `${name} belongs to no table of its manifest`)
    rowsOf.set(table, rowsOf.get(table)! + rows)
  }
  for (const { table, rows } of tables) {
    if (rowsOf.get(table) !== rows) throw unfit(file, `of ${table} it has ${rowsOf.get(table)} rows, not ${rows}`)
  }
}

function linesIn({ content }: ArchiveEntry): number {
  let lines = 0
  for (const byte of content) if (byte === NEWLINE) lines += 1
  return lines
}

function fromJson(content: Buffer): unknown {
  try {
    return JSON.parse(content.toString())
  } catch {
    return null
  }
}

const unfit = (file: string, what: string): StartProblem =>
  new StartProblem(`${file} is damaged or was tampered with: ${what}. Nothing was changed. Use another copy of it.`)
