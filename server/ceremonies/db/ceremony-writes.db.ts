import type { Transaction } from '../../db/client.ts'
import { toDate } from '../../db/dates.ts'
import { Prisma } from '../../db/generated/client.ts'

export interface NewPost {
  readonly title: string
  readonly row: number
  readonly place: number
  readonly certificationId: string
  readonly arm: string | null
  readonly grades: string[] | null
  readonly minHeightCm: number | null
  readonly maxHeightCm: number | null
  readonly soldierId: string | null
}

/** What of a ceremony is not its posts and alternates; days in the zone of the unit, instants RFC 3339. */
export interface StoredPlan {
  readonly title: string
  readonly place: string
  readonly unitId: string
  readonly reportsAt: string
  readonly startsAt: string
  readonly endsAt: string
  readonly day: string
  readonly minutesBefore: number
  readonly minutesAfter: number
  readonly notes: string
  readonly rehearsals: readonly {
    readonly startsAt: string
    readonly endsAt: string
    readonly day: string
    readonly place: string
  }[]
}

const columnsOf = ({ title, place, unitId, minutesBefore, minutesAfter, notes, ...plan }: StoredPlan) => ({
  title,
  place,
  unitId,
  minutesBefore,
  minutesAfter,
  notes,
  reportsAt: new Date(plan.reportsAt),
  startsAt: new Date(plan.startsAt),
  endsAt: new Date(plan.endsAt),
  day: toDate(plan.day),
  rehearsals: {
    create: plan.rehearsals.map(({ startsAt, endsAt, day, place }) => ({
      startsAt: new Date(startsAt),
      endsAt: new Date(endsAt),
      day: toDate(day),
      place,
    })),
  },
})

const postColumns = ({ grades, ...post }: NewPost) => ({ ...post, grades: grades ?? Prisma.DbNull })

/** Stores a ceremony with posts, rehearsals and alternates. Out: its id. */
export async function insertCeremony(
  tx: Transaction,
  plan: StoredPlan,
  posts: readonly NewPost[],
  alternates: readonly string[],
): Promise<string> {
  const { id } = await tx.ceremony.create({
    data: {
      ...columnsOf(plan),
      posts: { create: posts.map(postColumns) },
      alternates: { create: alternates.map((soldierId, index) => ({ soldierId, position: index + 1 })) },
    },
    select: { id: true },
  })
  return id
}

/** No rank is as far back; posts on the move wait there, so that two may change places. */
const OUT_OF_THE_WAY = 1000

/**
 * Puts a changed plan in the place of a ceremony's. Posts with an id are changed, those without are new, and whoever is
 * stored and not among them goes.
 */
export async function updateCeremony(
  tx: Transaction,
  id: string,
  plan: StoredPlan,
  posts: readonly (NewPost & { readonly id: string | null })[],
): Promise<void> {
  const kept = posts.flatMap((post) => post.id ?? [])
  await tx.rehearsal.deleteMany({ where: { ceremonyId: id } })
  await tx.post.deleteMany({ where: { ceremonyId: id, id: { notIn: kept } } })
  await tx.post.updateMany({ where: { ceremonyId: id }, data: { soldierId: null, row: { increment: OUT_OF_THE_WAY } } })
  await tx.ceremony.update({ where: { id }, data: { ...columnsOf(plan), version: { increment: 1 } } })
  await tx.$executeRaw`
    UPDATE post SET title = n.title, row = n.row, place = n.place, certification_id = n."certificationId", arm = n.arm,
      grades = NULLIF(n.grades, 'null'), min_height_cm = n."minHeightCm", max_height_cm = n."maxHeightCm",
      soldier_id = n."soldierId"
    FROM jsonb_to_recordset(${JSON.stringify(posts)}::jsonb) AS n(id uuid, title text, row smallint, place smallint,
      "certificationId" uuid, arm text, grades jsonb, "minHeightCm" smallint, "maxHeightCm" smallint, "soldierId" uuid)
    WHERE post.id = n.id AND post.ceremony_id = ${id}::uuid`
  const added = posts.filter((post) => post.id === null).map(({ id: _, ...post }) => postColumns(post))
  await tx.post.createMany({ data: added.map((post) => ({ ...post, ceremonyId: id })) })
}

/** Names soldiers to posts of a ceremony, or nobody; all at once, so that two may change places. */
export async function setNames(
  tx: Transaction,
  id: string,
  names: readonly { readonly postId: string; readonly soldierId: string | null }[],
): Promise<void> {
  await tx.post.updateMany({
    where: { ceremonyId: id, id: { in: names.map(({ postId }) => postId) } },
    data: { soldierId: null },
  })
  await tx.$executeRaw`
    UPDATE post SET soldier_id = n."soldierId"
    FROM jsonb_to_recordset(${JSON.stringify(names)}::jsonb) AS n("postId" uuid, "soldierId" uuid)
    WHERE post.id = n."postId" AND post.ceremony_id = ${id}::uuid`
  await tx.ceremony.update({ where: { id }, data: { version: { increment: 1 } } })
}

/** Puts these in the place of a ceremony's alternates, in this order. */
export async function setAlternates(
  tx: Transaction,
  id: string,
  alternates: readonly { readonly soldierId: string; readonly postIds: readonly string[] }[],
): Promise<void> {
  await tx.alternate.deleteMany({ where: { ceremonyId: id } })
  for (const [index, { soldierId, postIds }] of alternates.entries()) {
    const posts = { create: postIds.map((postId) => ({ postId })) }
    await tx.alternate.create({ data: { ceremonyId: id, soldierId, position: index + 1, posts } })
  }
  await tx.ceremony.update({ where: { id }, data: { version: { increment: 1 } } })
}

/** Marks a ceremony as called off. */
export async function cancelCeremony(tx: Transaction, id: string, at: Date, reason: string): Promise<void> {
  await tx.ceremony.update({
    where: { id },
    data: { cancelledAt: at, cancelReason: reason, version: { increment: 1 } },
  })
}
