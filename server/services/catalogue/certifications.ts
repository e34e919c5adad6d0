import type { Certification, CertificationBody } from '../../contract/certifications.ts'
import { bumpRevision, type Catalogue, readCatalogue, type StoredCertification } from '../../db/catalogue.db.ts'
import { findConcerned, insertCertification, insertTerms } from '../../db/catalogue-writes.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockCatalogue, lockSoldiers } from '../../db/locks.db.ts'
import { existingUnits } from '../../db/units.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { AppError, conflict, invalid } from '../../errors.ts'
import { requireAction } from '../access/require.ts'
import { settle } from '../assessment/settle.ts'
import type { Context } from '../context.ts'
import { fromCursor, toPage } from '../cursor.ts'
import { recorded } from '../record/recorded.ts'

/**
 * Creates a certification, or new terms of one that is there, from their day on. Standards and arms never change: other
 * ones are a conflict, as are second terms from the same day.
 */
export async function createCertification(
  context: Context,
  actor: Actor,
  body: CertificationBody,
): Promise<{ id: string }> {
  requireAction(actor, 'manage-standards')
  return recorded(context, actor, async (tx, note) => {
    await lockCatalogue(tx)
    const catalogue = await readCatalogue(tx)
    await requireUnits(tx, body)
    const existing = catalogue.certifications.find(({ code }) => code === body.code)
    if (existing) requireSame(existing, body)
    const id = existing?.id ?? (await insertCertification(tx, body, standardIds(catalogue, body)))
    await insertTerms(tx, id, body)
    await bumpRevision(tx)
    const concerned = await findConcerned(tx, body.standards)
    await lockSoldiers(tx, concerned)
    const action = existing ? 'certification.terms-changed' : 'certification.created'
    note({ action, subject: { kind: 'certification', id }, after: body })
    await settle(
      tx,
      await readCatalogue(tx),
      context.clock(),
      concerned.map((soldierId) => ({ soldierId })),
      note,
    )
    return { id }
  })
}

function standardIds({ standards }: Catalogue, body: CertificationBody): string[] {
  const items = body.standards.flatMap((code, index) => {
    const pointer = `/standards/${index}`
    if (!standards.has(code)) return [{ pointer, rule: 'unknown-standard', detail: `There is no standard "${code}".` }]
    if (body.standards.indexOf(code) < index) {
      return [{ pointer, rule: 'repeated-standard', detail: `"${code}" is required twice.` }]
    }
    return []
  })
  if (items[0]) throw new AppError('invalid', items[0].rule, items[0].detail, items)
  return body.standards.map((code) => standards.get(code)![0]!.standardId)
}

async function requireUnits(tx: Transaction, { requiredOf }: CertificationBody): Promise<void> {
  const units = requiredOf?.units ?? []
  const known = await existingUnits(tx, units)
  const missing = units.findIndex((id) => !known.includes(id))
  if (missing >= 0) throw invalid('unknown-unit', `/requiredOf/units/${missing}`, `There is no unit ${units[missing]}.`)
}

function requireSame(existing: StoredCertification, body: CertificationBody): void {
  const differs = (a: readonly string[], b: readonly string[]) =>
    a.length !== b.length || a.some((one, at) => one !== b[at])
  if (differs(existing.standards, body.standards) || differs([...existing.arms].sort(), [...body.arms].sort())) {
    const detail = `"${body.code}" is there with other standards or arms, and these never change. Give the same ones, or a new code.`
    throw conflict('certification-differs', detail)
  }
  if (existing.terms.some(({ effectiveFrom }) => effectiveFrom === body.effectiveFrom)) {
    throw conflict('terms-exist', `"${body.code}" has terms from ${body.effectiveFrom} already; give another day.`)
  }
}

/** The certifications with their latest terms, by code. */
export async function findCertifications(
  context: Context,
  _actor: Actor,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: Certification[]; next: string | null }> {
  const key = fromCursor(query.after, ['text'])
  const { certifications } = await context.catalogue.current(context.db)
  const rows = certifications.filter(({ code }) => !key || code > String(key[0])).slice(0, query.limit + 1)
  return toPage(rows, query.limit, ({ code }) => [code], toCertification)
}

function toCertification({ id, code, title, standards, arms, terms }: StoredCertification): Certification {
  const { requiredGrades, requiredUnits, ...latest } = terms.at(-1)!
  const requiredOf =
    requiredGrades === null && requiredUnits === null
      ? null
      : { grades: requiredGrades && [...requiredGrades], units: requiredUnits && [...requiredUnits] }
  return { id, code, title, standards: [...standards], arms: [...arms], ...latest, requiredOf }
}
