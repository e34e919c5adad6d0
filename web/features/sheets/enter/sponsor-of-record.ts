import type { SoldierDetail } from '#contract/soldiers/soldiers.ts'

/** Who is the candidate's sponsor of record on a day; the one since the latest day where there are two. */
export const sponsorOfRecord = (candidate: Pick<SoldierDetail, 'sponsors'> | undefined, day: string) =>
  candidate?.sponsors
    .filter(({ from, to }) => from <= day && (to === null || day <= to))
    .sort((a, b) => b.from.localeCompare(a.from))[0]
