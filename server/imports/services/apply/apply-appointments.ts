import { findDependents } from '../../../assessment/db/assessments.db.ts'
import type { AppointmentItem } from '../../../contract/imports/import-items.ts'
import { appointmentsOf, endAppointments, insertAppointments } from '../../db/import-facts.db.ts'
import { soldiersByNumber } from '../../db/import-people.db.ts'
import { findVersions, noStandard } from '../find-named.ts'
import { mergePeriods } from '../merge-periods.ts'
import { type Effect, type Given, holdSoldiers, nobody, type Run, verdictList } from '../run.ts'

/** Takes in who may grade which standard; sheets they graded are judged again. */
export async function applyAppointments(run: Run, given: readonly Given<AppointmentItem>[]): Promise<Effect> {
  const { tx, note, catalogue } = run
  const { verdicts, say } = verdictList()
  const soldiers = await soldiersByNumber(
    tx,
    given.map(({ item }) => item.rosterNumber),
  )
  const sound = given.flatMap((one) => {
    const { rosterNumber, standard: name, from, to = null } = one.item
    const about = `${rosterNumber}, grader of ${name} from ${from}`
    const soldier = soldiers.get(rosterNumber)
    const standard = findVersions(catalogue, name)[0]?.code
    if (!soldier || standard === undefined) {
      say(
        one.rows,
        'refused',
        about,
        ...(soldier ? [] : [nobody(rosterNumber)]),
        ...(standard === undefined ? [noStandard(name)] : []),
      )
      return []
    }
    return [{ ...one, about, period: { of: soldier.id, by: standard, from, to } }]
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
  return { verdicts, disturbances: candidates.map((soldierId) => ({ soldierId })) }
}
