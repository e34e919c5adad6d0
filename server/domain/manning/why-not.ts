import type { DutyTime, PostNeed, SoldierFacts, Span, WhyNot } from './types.ts'

/** When those named report and are on duty. */
export interface Occasion {
  /** Milliseconds since 1970. */
  readonly reportsAt: number
  readonly times: readonly DutyTime[]
}

/**
 * Every reason why a soldier may not stand at a post; none: they may.
 *
 * Not in the strength that day is said alone. A suspension stands for the missing certification. Who is certified only by
 * a test of the very day is not until that test has ended: it must end by the time of reporting. A height that is not
 * known fits no band. Absent is who is away on the day of the ceremony or of a rehearsal. Two duties overlap when they
 * share time; that one begins as the other ends is no overlap.
 */
export function whyNot(post: PostNeed, occasion: Occasion, soldier: SoldierFacts): WhyNot[] {
  if (soldier.grade === null) return [{ reason: 'not in strength' }]
  return [
    ...whyNotCertified(occasion, soldier),
    ...(post.arm !== null && !soldier.arms.includes(post.arm) ? [{ reason: 'wrong arm' } as const] : []),
    ...(post.grades !== null && !post.grades.includes(soldier.grade) ? [{ reason: 'wrong grade' } as const] : []),
    ...whyNotThatHigh(post, soldier.heightCm),
    ...whyAway(occasion, soldier),
    ...whyBusy(occasion, soldier),
  ]
}

function whyNotCertified(
  { reportsAt }: Occasion,
  { status, missing, validThrough, certifiedAt }: SoldierFacts,
): WhyNot[] {
  if (status === 'suspended') return [{ reason: 'suspended' }]
  if (status !== 'certified') return [{ reason: 'not certified', status, missing: [...missing], validThrough }]
  if (certifiedAt === null || certifiedAt <= reportsAt) return []
  return [{ reason: 'test ends too late', finishedAt: new Date(certifiedAt).toISOString() }]
}

function whyNotThatHigh({ minHeightCm, maxHeightCm }: PostNeed, heightCm: number | null): WhyNot[] {
  if (minHeightCm === null && maxHeightCm === null) return []
  if (heightCm === null) return [{ reason: 'height not known' }]
  const fits = heightCm >= (minHeightCm ?? heightCm) && heightCm <= (maxHeightCm ?? heightCm)
  return fits ? [] : [{ reason: 'outside the height band', heightCm }]
}

/** One reason an absence, said of the first of the days it covers. */
function whyAway({ times }: Occasion, { absences }: SoldierFacts): WhyNot[] {
  return absences.flatMap((absence): WhyNot[] => {
    const missed = times.find(({ day }) => absence.from <= day && (absence.through === null || day <= absence.through))
    return missed ? [{ reason: 'absent', ...absence, at: missed.at }] : []
  })
}

const overlap = (one: Span, other: Span): boolean => one.from < other.to && other.from < one.to

function whyBusy({ times }: Occasion, { duties }: SoldierFacts): WhyNot[] {
  return duties
    .filter((duty) => times.some((time) => overlap(time, duty)))
    .map(({ kind, title, from, to }) => ({
      reason: 'other duty',
      kind,
      title,
      startsAt: new Date(from).toISOString(),
      endsAt: new Date(to).toISOString(),
    }))
}
