import { readClosedUnits, readTimeZone } from '../../../access/db/units.db.ts'
import { formatClosed } from '../../../access/services/require.ts'
import { insertCeremony } from '../../../ceremonies/db/ceremony-writes.db.ts'
import { soundPosts } from '../../../ceremonies/services/manning/sound-posts.ts'
import { toPlan } from '../../../ceremonies/services/to-plan.ts'
import type { CeremonyItem } from '../../../contract/imports/import-items.ts'
import { ceremoniesAt } from '../../db/import-facts.db.ts'
import { type KnownSoldier, soldiersByNumber } from '../../db/import-people.db.ts'
import { findCertification } from '../find-named.ts'
import { type Effect, formatRefusal, type Given, type Run, verdictList } from '../run.ts'
import { toInstant } from '../sheet-bodies.ts'
import { type UnitFinder, unitFinder } from '../unit-finder.ts'

/** Takes in ceremonies with their posts, and who is named to them. */
export async function applyCeremonies(run: Run, given: readonly Given<CeremonyItem>[]): Promise<Effect> {
  const { tx, context, note, progress } = run
  const { verdicts, say } = verdictList()
  const units = await unitFinder(run, false)
  const closed = await readClosedUnits(tx, null)
  const soldiers = await soldiersByNumber(
    tx,
    given.flatMap(({ item }) => item.posts.flatMap(({ rosterNumber }) => rosterNumber ?? [])),
  )
  for (const [index, { rows, about, item }] of given.entries()) {
    progress('ceremonies', index + 1, given.length)
    const made = await bodyOf(run, item, units, soldiers)
    if ('wrong' in made) {
      say(rows, 'refused', about, ...made.wrong)
      continue
    }
    const { plan, posts } = made
    const [same] = (await ceremoniesAt(tx, [plan.startsAt])).filter(
      (one) => one.title === plan.title && one.unitId === plan.unitId,
    )
    const key = [...posts]
      .sort((a, b) => a.row - b.row || a.place - b.place)
      .map((post) => `${post.row}/${post.place}/${post.title}/${post.certificationId}/${post.soldierId ?? ''}`)
    if (
      same &&
      same.place === plan.place &&
      Date.parse(same.endsAt) === Date.parse(plan.endsAt) &&
      key.join('\n') === same.posts.join('\n')
    ) {
      say(rows, 'unchanged', about)
    } else if (same)
      say(rows, 'refused', about, 'This ceremony is planned already, otherwise. Change it there, or leave it out here.')
    else {
      const stored = await toPlan(context, tx, plan)
      const overrun = closed.find(({ id, from }) => id === stored.unitId && stored.day >= from)
      if (overrun) {
        say(rows, 'refused', about, formatClosed(overrun))
        continue
      }
      const id = await insertCeremony(tx, stored, posts, [])
      note({ action: 'ceremony.planned', subject: { kind: 'ceremony', id }, after: { ...plan, posts } })
      say(rows, 'added', about, `${posts.length} ${posts.length === 1 ? 'post' : 'posts'}`)
    }
  }
  return { verdicts, triggers: [] }
}

type Plan = Parameters<typeof toPlan>[2]

async function bodyOf(
  run: Run,
  item: CeremonyItem,
  units: UnitFinder,
  soldiers: ReadonlyMap<string, KnownSoldier>,
): Promise<{ wrong: string[] } | { plan: Plan; posts: ReturnType<typeof soundPosts> }> {
  const unit = await units.find(item)
  if ('wrong' in unit) return { wrong: [unit.wrong] }
  const zone = (await readTimeZone(run.tx, unit.id)) ?? run.context.timeZone
  const [startsAt, endsAt] = [toInstant(item.startsAt, zone), toInstant(item.endsAt, zone)]
  const wrong = Date.parse(startsAt) >= Date.parse(endsAt) ? ['The ceremony ends before it starts.'] : []
  const { title, place, notes } = item
  const plan = {
    title,
    place,
    notes,
    unitId: unit.id,
    reportsAt: null,
    startsAt,
    endsAt,
    minutesBefore: 0,
    minutesAfter: 0,
    rehearsals: [],
  }
  const certifications = new Map(run.catalogue.certifications.map(({ code, id }) => [code, id]))
  const posts = item.posts.map(({ rosterNumber, certification, arm, grades, minHeightCm, maxHeightCm, ...post }) => ({
    ...post,
    certification: findCertification(run.catalogue, certification)!.code,
    arm: arm ?? null,
    grades: grades ?? null,
    minHeightCm: minHeightCm ?? null,
    maxHeightCm: maxHeightCm ?? null,
    soldierId: rosterNumber ? soldiers.get(rosterNumber)!.id : null,
  }))
  try {
    const named = new Set([...soldiers.values()].map(({ id }) => id))
    const sound = soundPosts(posts, certifications, named, [])
    return wrong.length > 0 ? { wrong } : { plan, posts: sound }
  } catch (error) {
    return { wrong: [...wrong, ...formatRefusal(error)] }
  }
}
