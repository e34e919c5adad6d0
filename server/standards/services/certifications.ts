import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { Certification, CertificationBody } from '../../contract/standards/certifications.ts'
import type { StoredCertification } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { enterTerms } from './enter-terms.ts'

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
  const { id } = await recorded(context, actor, (tx, note) => enterTerms(tx, context, body, note))
  return { id }
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

/** All terms of a certification, the latest first. */
export async function findTerms(
  context: Context,
  _actor: Actor,
  id: string,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: Certification[]; next: string | null }> {
  const key = fromCursor(query.after, ['day'])
  const { certifications } = await context.catalogue.current(context.db)
  const certification = certifications.find((one) => one.id === id)
  if (!certification) throw notFound('certification')
  const terms = certification.terms
    .filter(({ effectiveFrom }) => !key || effectiveFrom < String(key[0]))
    .sort((a, b) => (a.effectiveFrom < b.effectiveFrom ? 1 : -1))
  return toPage(
    terms,
    query.limit,
    ({ effectiveFrom }) => [effectiveFrom],
    (one) => toCertification({ ...certification, terms: [one] }),
  )
}

function toCertification({ id, code, title, standards, arms, terms }: StoredCertification): Certification {
  const { requiredGrades, requiredUnits, ...latest } = terms.at(-1)!
  const requiredOf =
    requiredGrades === null && requiredUnits === null
      ? null
      : { grades: requiredGrades && [...requiredGrades], units: requiredUnits && [...requiredUnits] }
  return { id, code, title, standards: [...standards], arms: [...arms], ...latest, requiredOf }
}
