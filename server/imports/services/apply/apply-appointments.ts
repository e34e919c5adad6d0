import { findDependents } from '../../../assessment/db/assessments.db.ts'
import type { AppointmentItem } from '../../../contract/imports/import-items.ts'
import { appointmentsOf, endAppointments, insertAppointments } from '../../db/import-facts.db.ts'
import { soldiersByNumber } from '../../db/import-people.db.ts'
import { findVersions } from '../find-named.ts'
import { mergePeriods } from '../merge-periods.ts'
import { type Effect, type Given, holdSoldiers, type Run, verdictList } from '../run.ts'

/** Takes in who may grade which standard; sheets they graded are judged again. */
export async function applyAppointments(run: Run, given: readonly Given<AppointmentItem>[]): Promise<Effect> {
  const { tx, note, catalogue } = run
  const { verdicts, say } = verdictList()
  const soldiers = await soldiersByNumber(
    tx,
    given.map(({ item }) => item.rosterNumber),
  )
  const sound = given.map((one) => {
    const { rosterNumber, standard, from, to = null } = one.item
    const period = { of: soldiers.get(rosterNumber)!.id, by: findVersions(catalogue, standard)[0]!.code, from, to }
    return { ...one, period }
  })
  const recorded = await appointmentsOf(
    tx,
    sound.map(({ period }) => period.of),
  )
  const { added, ended } = mergePeriods(recorded, sound, say)
  await endAppointments(tx, ended)
  await insertAppointments(tx, added)
  for (const { of, by, from, to } of added) {
    note({ action: 'appointment.added', subject: { kind: 'soldier', id: of }, after: { standard: by, from, to } })
  }
  for (const { of, by, from, to } of ended) {
    note({
      action: 'appointment.ended',
      subject: { kind: 'soldier', id: of },
      before: { standard: by, from, to: null },
      after: { standard: by, from, to },
    })
  }
  const candidates = await findDependents(
    tx,
    [...added, ...ended].map(({ of, from }) => ({ id: of, fromDay: from })),
  )
  await holdSoldiers(run, candidates)
  return { verdicts, triggers: candidates.map((soldierId) => ({ soldierId })) }
}
