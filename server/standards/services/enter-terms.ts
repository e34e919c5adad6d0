import { existingUnits } from '../../access/db/units.db.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { CertificationBody } from '../../contract/standards/certifications.ts'
import { bumpRevision, type Catalogue, readCatalogue, type StoredCertification } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockCatalogue, lockSoldiers } from '../../db/locks.db.ts'
import { AppError, conflict, type ErrorItem, invalid } from '../../errors.ts'
import type { Note } from '../../record/services/recorded.ts'
import { findConcerned, insertCertification, insertTerms } from '../db/catalogue-writes.db.ts'

/**
 * Enters a certification, or new terms of one, and judges anew whomever they concern. `mayJudge` may object to how many
 * those are. Out: the id of the certification, and how many sheets came to stand otherwise.
 */
export async function enterTerms(
  tx: Transaction,
  context: Context,
  body: CertificationBody,
  note: Note,
  mayJudge: (people: number) => void = () => {},
): Promise<{ id: string; sheets: number }> {
  await lockCatalogue(tx)
  const catalogue = await readCatalogue(tx)
  await requireUnits(tx, body)
  const existing = catalogue.certifications.find(({ code }) => code === body.code)
  if (existing) requireSame(existing, body)
  const id = existing?.id ?? (await insertCertification(tx, body, standardIds(catalogue, body)))
  await insertTerms(tx, id, body)
  await noteNew(tx, note, { grades: body.requiredOf?.grades, arms: body.arms })
  await bumpRevision(tx)
  const concerned = await findConcerned(tx, body.standards)
  mayJudge(concerned.length)
  await lockSoldiers(tx, concerned)
  const action = existing ? 'certification.terms-changed' : 'certification.created'
  note({ action, subject: { kind: 'certification', id }, after: body })
  const disturbed = concerned.map((soldierId) => ({ soldierId }))
  const now = context.clock()
  const { stoodBefore } = await settle(tx, await readCatalogue(tx), now, disturbed, note, { act: 'rule' })
  return { id, sheets: stoodBefore.length }
}

function standardIds({ standards }: Catalogue, body: CertificationBody): string[] {
  const items = body.standards.flatMap((code, index): ErrorItem[] => {
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
