import { settle } from '../../assessment/services/settle.ts'
import type { ImportCounts, ImportKind, ImportQuestion, ImportRow } from '../../contract/imports/imports.ts'
import { notifyNamed } from '../../notices/services/notify-named.ts'
import { notifyLate } from '../../sheets/services/notify-late.ts'
import { readStates } from '../db/import-sheets.db.ts'
import { appliers } from './apply/appliers.ts'
import { askAboutLists } from './ask-about-lists.ts'
import { findBrokenRules } from './find-broken-rules.ts'
import { findUnknown } from './find-unknown.ts'
import { mergeTriggers, type Triggers } from './merge-triggers.ts'
import { refuseOwnCase } from './refuse-own-case.ts'
import type { Given, Run, Verdict } from './run.ts'

/** What becomes of a file. */
export interface TakenIn {
  readonly rows: readonly ImportRow[]
  readonly counts: ImportCounts
  readonly newUnits: readonly string[]
  readonly questions: readonly ImportQuestion[]
}

/**
 * Takes a file in by the rules that hold for everything else, in the transaction of the run: writes what its rows say, and
 * then judges everybody once whom it concerns. Out: what becomes of each row. A trial run does the same and is thrown away.
 */
export async function takeIn(run: Run, kind: ImportKind, read: readonly Given<never>[]): Promise<TakenIn> {
  const { tx, catalogue, now, note, trial, progress } = run
  const { refused, sound } = await faultsApart(run, kind, read)
  const effect = await appliers[kind](run, sound)
  const verdicts = new Map<number, Verdict>([...refused, ...effect.verdicts])
  const triggers: Triggers = mergeTriggers(effect.triggers)
  const before = triggers.length
  await settle(tx, catalogue, now, triggers, note, {
    tallies: !trial,
    progress: async (done, waiting) => progress('judging', done, Math.max(before, done + waiting)),
  })
  if (effect.sheets) {
    const sheetIds = [...effect.sheets.keys()]
    if (!trial) {
      await notifyNamed(tx, now, note.soldierId, sheetIds)
      await notifyLate(tx, now, sheetIds)
    }
    const states = await readStates(tx, sheetIds)
    for (const [id, rows] of effect.sheets) {
      const { state, violations } = states.get(id)!
      note({
        action: 'sheet.submitted',
        subject: { kind: 'sheet', id },
        after: { state, violations: violations.map(({ rule }) => rule) },
      })
      if (state !== 'held') continue
      const reasons = violations.map(({ detail }) => detail)
      for (const row of rows) verdicts.set(row, { outcome: 'held', about: verdicts.get(row)!.about, reasons })
    }
  }
  const rows = [...verdicts].map(([number, verdict]) => ({ number, ...verdict })).sort((a, b) => a.number - b.number)
  const counts = { added: 0, changed: 0, unchanged: 0, held: 0, refused: 0 }
  for (const { outcome } of rows) counts[outcome] += 1
  return { rows, counts, newUnits: effect.newUnits ?? [], questions: run.questions.all }
}

/** Finds all that is wrong with rows; those of the roster go on together, for a row may be wrong by what another says. */
async function faultsApart(
  run: Run,
  kind: ImportKind,
  read: readonly Given<never>[],
): Promise<{ refused: Map<number, Verdict>; sound: readonly Given<never>[] }> {
  const known = await findUnknown(run, kind, await askAboutLists(run, read))
  const given = await refuseOwnCase(run, kind, findBrokenRules(run, kind, known))
  const isSound = ({ faults }: Given<never>) => faults.length === 0 || kind === 'roster'
  const refused = new Map<number, Verdict>()
  for (const { rows, about, faults } of given.filter((one) => !isSound(one))) {
    for (const row of rows) refused.set(row, { outcome: 'refused', about, reasons: [...new Set(faults)] })
  }
  return { refused, sound: given.filter(isSound) }
}
